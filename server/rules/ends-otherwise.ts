/** A thing that should be otherwise than normal at the end, as `ends with` says, and on no way is. */
import { namesIn } from "../facts";
import { type Place, type Procedure, placeAt, type Thing } from "../model";
import { DEPARTURES, differencesAt, type Stand } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const endsOtherwise: ProcedureRule = {
  code: "ends-otherwise",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{title}” should be {state} at the end, and on no way it is.",
    hint: "Write the act that makes it so, or take it out here.",
  },
  docs: {
    what: "`ends with` says that something is off, isolated, put in or the like when the job ends, and no way ends so: what should make it so is missing, or is undone.",
    why: "The next job rests on it. Whoever follows a sheet that makes a machine safe takes it for safe.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  circuit motor "Motor circuit"
  part cover "Motor cover"
}

procedure make-safe "Make the winch safe" {
  on winch
  ends with {
    isolated motor
    off cover
  }
  step "Switch off" {
    remove cover
  }
}
`,
      "    remove cover\n",
      "    isolate motor\n    remove cover\n",
    ),
  },
  check(procedure, report, sight) {
    const { graph, relations } = sight.walk(procedure);
    const end = graph.points.length - 1;
    for (const { thing, state, place } of meantAtEnd(procedure)) {
      const stands = differencesAt({ graph, relations }, thing, end).filter((s) => !has(s, "absent"));
      if (stands.length === 0 || stands.some((stand) => isSo(stand, state))) continue;
      report({ place, args: { title: titleOf(thing), state: IN_WORDS[state] ?? state } });
    }
  },
};

/** Words of the language that would not do in a sentence. */
const IN_WORDS: Readonly<Record<string, string>> = { opened: "open", inserted: "put in" };

interface Meant {
  readonly thing: Thing;
  /** The word under `ends with`. */
  readonly state: string;
  readonly place: Place;
}

/** What a procedure says of its end. */
function meantAtEnd({ thing: { entry, file, line }, find }: Procedure): readonly Meant[] {
  return entry.children
    .filter((child) => child.entry.construct === "ends")
    .flatMap((block) =>
      block.entry.children.flatMap((child) =>
        child.entry.form.slots.flatMap((slot) =>
          namesIn(child.entry.form, slot.role).flatMap(({ name, at }): Meant[] => {
            const thing = find(name, slot.accepts);
            const place = placeAt(file, line + block.row + child.row, at);
            return thing ? [{ thing, state: child.entry.construct, place }] : [];
          }),
        ),
      ),
    );
}

const has = ({ differences }: Stand, kind: string): boolean => differences.some((d) => d.kind === kind);

/** Whether something stands as a word says: off, for a fastener, is out. */
function isSo(stand: Stand, state: string): boolean {
  const kind = Object.entries(DEPARTURES).find(([, row]) => row.said === state)?.[0] ?? state;
  return has(stand, kind) || (state === "off" && (has(stand, "out") || has(stand, "carried")));
}
