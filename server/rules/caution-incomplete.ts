/** A caution that lacks one of its three parts. */
import { CAUTION_WORDS, cautionOf } from "../facts";
import { listed, twins } from "./say";
import type { BlockRule } from "./types";

export const cautionIncomplete: BlockRule = {
  code: "caution-incomplete",
  severity: "error",
  group: "cautions",
  grain: "block",
  messages: {
    main: "This caution does not say {lacking}.",
    hint: 'A caution has three parts: the hazard in quotes, “can "…"”, and “so "…"”.',
  },
  docs: {
    what: "A caution lacks what the hazard is, what it can do, or what to do about it.",
    why: "A warning that says only “careful” helps nobody; ANSI Z535.6 and ISO 3864-2 ask for the three parts.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part brake-band "Brake band"  spring-loaded
}

procedure renew "Take the brake band off and put it on" {
  on winch
  step "Off and on" {
    warning stored-energy {
      "The brake band is under tension."
      so "Slacken it fully and stand beside it."
    }
    remove brake-band
    fit brake-band
  }
}
`,
      '      "The brake band is under tension."\n',
      '      "The brake band is under tension."\n      can "Whip out, and cost an eye."\n',
    ),
  },
  check(entry, report) {
    if (!CAUTION_WORDS.includes(entry.construct)) return;
    const { text, can, so } = cautionOf(entry);
    const lacking = [
      ...(text === "" ? ["what the hazard is"] : []),
      ...(can === "" ? ["what it can do"] : []),
      ...(so === "" ? ["what to do about it"] : []),
    ];
    if (lacking.length > 0) report({ place: entry.form.at, args: { lacking: listed(lacking, "and") } });
  },
};
