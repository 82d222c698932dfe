/** Letters that look like others, and signs that cannot be seen. */
import type { Line, Span } from "../../grammar";
import type { At } from "../facts";
import type { FileModel, Place, Thing } from "../model";
import { candidatesFor } from "./candidates";
import { drawn, mixedAlphabets, readsLike } from "./look-alikes";
import { titleOf, twins } from "./say";
import type { Fault, FileRule, LineRule, Page } from "./types";

const PAGE: Page = {
  code: "look-alike-letter",
  severity: "error",
  group: "names and shape",
  messages: {
    main: "“{word}” mixes two alphabets: its “{letter}” is a {alphabet} letter.",
    fix: "Write {instead} in one alphabet",
    invisible: "A sign that cannot be seen stands in this line ({code}).",
    "invisible-fix": "Take the sign out",
    pair: "“{name}” looks like another name, but has letters of another alphabet.",
    "pair-fix": "Write it with the letters of the other name",
    other: "The name it looks like stands here.",
  },
  docs: {
    what: "A name mixes letters of two alphabets that look alike, two names differ by such letters alone, or a sign cannot be seen.",
    why: "Copied text brings them in. To the eye the names are equal; to every program they are two.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
  part c\u043ever "Cover"
}
`,
      "c\u043ever",
      "cover",
    ),
  },
};

/** A line by itself: mixed words, signs that cannot be seen. Texts in quotes and comments are the writer's own. */
export const lookAlikeLetter: LineRule = {
  ...PAGE,
  grain: "line",
  check(line, report) {
    if (line.kind === "prose" || line.kind === "comment") return;
    for (const fault of [...mixedIn(line), ...invisibleIn(line)]) report(fault);
  },
};

/** Names in sight of each other that differ by look-alike letters alone. */
export const lookAlikeName: FileRule = {
  ...PAGE,
  grain: "file",
  check(file, report) {
    for (const fault of [...declaredPairs(file), ...usedPairs(file)]) report(fault);
  },
};

const UNSEEN = /[\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u2064\u2066-\u2069\ufeff]/g;

/** Whether a line's fault is told here already: a mixed word, or a sign that cannot be seen. */
export function hasLookAlikes(line: Line): boolean {
  return mixedIn(line).length > 0 || invisibleIn(line).length > 0;
}

/** The line with its texts and comment blanked out. */
function outsideTexts(line: Line): string {
  const code = line.text.slice(0, line.comment?.start ?? line.text.length);
  return code.replace(/"(?:[^"\\]|\\.)*"?/g, (text) => " ".repeat(text.length));
}

const at = (start: number, end: number): At => ({ row: 0, span: { start, end } satisfies Span });

function mixedIn(line: Line): Fault<At>[] {
  return [...outsideTexts(line).matchAll(/\p{L}[\p{L}\p{M}]*/gu)].flatMap((match) => {
    const mixed = mixedAlphabets(match[0]);
    if (!mixed) return [];
    const place = at(match.index, match.index + match[0].length);
    const args = { word: match[0], letter: mixed.letter, alphabet: mixed.alphabet, instead: mixed.pure };
    return [
      {
        place,
        args,
        fixes: [{ title: { id: "fix", args }, safe: true, changes: [{ place, text: mixed.pure }] }],
      },
    ];
  });
}

function invisibleIn(line: Line): Fault<At>[] {
  return [...outsideTexts(line).matchAll(UNSEEN)].map((match) => {
    const place = at(match.index, match.index + 1);
    const code = `U+${(match[0].codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0")}`;
    return {
      place,
      message: "invisible",
      args: { code },
      fixes: [{ title: { id: "invisible-fix", args: {} }, safe: true, changes: [{ place, text: "" }] }],
    };
  });
}

/** A name that the look at its line has told of already. */
const isMixed = (name: string): boolean =>
  (name.match(/\p{L}[\p{L}\p{M}]*/gu) ?? []).some((w) => mixedAlphabets(w) !== null);

function declaredPairs(file: FileModel): Fault<Place>[] {
  const suspect = file.things.filter((t) => t.named && t.name !== drawn(t.name) && !isMixed(t.name));
  if (suspect.length === 0) return [];
  const byLook = new Map<string, Thing[]>();
  for (const t of file.inSight)
    if (t.named) byLook.set(drawn(t.name), [...(byLook.get(drawn(t.name)) ?? []), t]);
  return suspect.flatMap((thing) => {
    const other = byLook.get(drawn(thing.name))?.find((t) => readsLike(t.name, thing.name));
    // Written alike the two would have one name: which of them gets another is for the writer to say.
    return other ? [{ ...pairFault(thing.name, thing.place, other), fixes: [] }] : [];
  });
}

function usedPairs(file: FileModel): Fault<Place>[] {
  if (file.mayDeclareMore) return [];
  return file.bindings.flatMap((binding) => {
    if (binding.thing || binding.misfit || isMixed(binding.name)) return [];
    const other = candidatesFor(binding, file).find((t) => readsLike(t.name, binding.name));
    return other ? [pairFault(binding.name, binding.place, other)] : [];
  });
}

function pairFault(name: string, place: Place, other: Thing): Fault<Place> {
  const related = [{ place: other.place, message: "other", args: { title: titleOf(other) } }];
  const fixes = [
    { title: { id: "pair-fix", args: {} }, safe: false, changes: [{ place, text: other.name }] },
  ];
  return { place, message: "pair", args: { name }, related, fixes };
}
