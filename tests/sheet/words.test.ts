/** The sheet's generated words: whole in every language, filled in right. */
import { describe, expect, it } from "vitest";
import { LANGUAGES, phrase, type SheetWord, say } from "../../server/phrases/sheet";
import { en } from "../../server/phrases/sheet-en";

const IDS = Object.keys(en) as SheetWord[];

function placeholders(text: string): string[] {
  return Array.from(text.matchAll(/\{\w+\}/g), ([name]) => name).sort();
}

describe.each(LANGUAGES)("the words in %s", (language) => {
  it("are all there, with the places of the English ones", () => {
    expect(IDS.filter((id) => phrase(language, id).trim() === "")).toEqual([]);
    for (const id of IDS) {
      expect([id, placeholders(phrase(language, id))]).toEqual([id, placeholders(phrase("en", id))]);
    }
  });

  it("are not the English sentences", () => {
    const same = IDS.filter(
      (id) => language !== "en" && en[id].length > 20 && phrase(language, id) === en[id],
    );
    expect(same).toEqual([]);
  });
});

describe("signal words", () => {
  // ANSI Z535.6 and ISO 3864-2, and their usage in the other languages; from memory.
  it.each([
    ["en", ["DANGER", "WARNING", "CAUTION", "NOTICE"]],
    ["de", ["GEFAHR", "WARNUNG", "VORSICHT", "HINWEIS"]],
    ["fr", ["DANGER", "AVERTISSEMENT", "ATTENTION", "AVIS"]],
    ["es", ["PELIGRO", "ADVERTENCIA", "ATENCIÓN", "AVISO"]],
  ] as const)("are the standards' in %s", (language, expected) => {
    const signals = ["danger", "warning", "caution", "notice"] as const;
    expect(signals.map((signal) => say(language, `signal.${signal}`))).toEqual(expected);
  });
});

describe("saying", () => {
  it("puts arguments in, and leaves what is not given", () => {
    expect(say("en", "page-of", { page: "2", pages: "7" })).toBe("Page 2 of 7");
    expect(say("en", "page-of", { page: "{pages}", pages: "$&" })).toBe("Page {pages} of $&");
    expect(say("de", "step")).toBe("Schritt {number}");
  });
});
