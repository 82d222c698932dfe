/** The words of cautions in other languages than the table of hazards: all hazards, whole sentences, none left in English. */
import { expect, test } from "vitest";
import { cautionWords, ownWords } from "../../server/phrases/cautions";
import { LANGUAGES } from "../../server/phrases/sheet";
import { HAZARDS } from "../../server/walk";

test("every hazard of the trade has its three parts in every language", () => {
  for (const language of LANGUAGES) {
    for (const [hazard, { says }] of Object.entries(HAZARDS)) {
      const words = cautionWords(language, hazard);
      if (language === "en") expect(words).toBeNull();
      else {
        expect(words, `${language} ${hazard}`).toHaveLength(3);
        for (const [i, part] of (words ?? []).entries()) {
          expect(part).toMatch(/^\p{Lu}.+\.$/u);
          expect(part).not.toBe(says[i]);
        }
      }
    }
    expect(ownWords(language)).toHaveLength(2);
  }
});
