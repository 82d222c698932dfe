/** A name that nothing bears. */
import { constructs, nearest } from "../../grammar";
import { clausesOf, type Entry, fastenerFacts, namesIn } from "../facts";
import { type Binding, type FileModel, type Place, placeAt, type Thing } from "../model";
import { thingsInWords } from "../phrases/problems";
import { candidatesFor } from "./candidates";
import { readsLike } from "./look-alikes";
import { titleOf, twins } from "./say";
import type { Args, Fault, FileRule } from "./types";

export const unknownName: FileRule = {
  code: "unknown-name",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "Nothing in sight has the name “{name}”.",
    hint: "Here stands the name of {kinds}: declare it, or bring it in sight with a “use” line.",
    near: "Nothing in sight has the name “{name}”. Did you mean “{near}”?",
    stage: "“{title}” has no stage “{name}”.",
    "stage-hint": "Its stages are: {stages}.",
    "stage-near": "“{title}” has no stage “{name}”. Did you mean “{near}”?",
    act: "“{name}” is no act.",
    "act-hint": "Behind “raised-by” comes the word of an act: remove, open, start and the like.",
    fix: "Write {near}",
    declared: "“{title}” is declared here.",
  },
  docs: {
    what: "A name is used that nothing in sight bears.",
    why: "The fitter cannot know what is meant, and nothing that rests on the name can be checked.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Cover"
  part drum "Drum"  behind covre
}
`,
      "behind covre",
      "behind cover",
    ),
  },
  check(file, report) {
    if (file.mayDeclareMore) return;
    const nearestName = remembered();
    file.bindings.forEach((binding, at) => {
      if (binding.thing || binding.misfit) return;
      const fault =
        binding.accepts[0] === "stage"
          ? stageFault(binding, file.bindings, at)
          : nameFault(binding, file, nearestName);
      if (fault) report(fault);
    });
    for (const thing of file.things)
      if (thing.kind === "hazard") for (const fault of actFaults(thing.entry, thing)) report(fault);
  },
};

type NearestName = (name: string, known: readonly Thing[]) => Thing | undefined;

/** The thing with the nearest name, each name looked up once among the same things. */
function remembered(): NearestName {
  const found = new Map<readonly Thing[], Map<string, Thing | undefined>>();
  return (name, known) => {
    const byName = found.get(known) ?? new Map<string, Thing | undefined>();
    found.set(known, byName);
    if (!byName.has(name)) {
      const near = nearest(
        name,
        known.map((t) => t.name),
      );
      byName.set(
        name,
        known.find((t) => t.name === near),
      );
    }
    return byName.get(name);
  };
}

function nameFault(binding: Binding, file: FileModel, nearestName: NearestName): Fault<Place> | null {
  const { name, place, accepts } = binding;
  const known = candidatesFor(binding, file);
  // Told apart only by letters that look alike: another rule says so.
  if (known.some((t) => readsLike(t.name, name))) return null;
  const thing = nearestName(name, known);
  // It is there, and out of sight from here: in another block or machine.
  if (thing?.name === name)
    return { place, args: { name, kinds: thingsInWords(accepts) }, related: [declared(thing)] };
  if (!thing) return { place, args: { name, kinds: thingsInWords(accepts) } };
  return {
    place,
    message: "near",
    args: { name, near: thing.name },
    related: [declared(thing)],
    fixes: [fixOf(place, thing.name)],
  };
}

/** A stage that none of the fasteners the act names has; silent where one of them is not known itself. */
function stageFault(binding: Binding, bindings: readonly Binding[], at: number): Fault<Place> | null {
  const { name, place } = binding;
  const what = actedOn(bindings, at);
  const fasteners = what.flatMap((b) => (b.thing?.kind === "fastener" ? [b.thing] : []));
  const first = fasteners[0];
  if (!first || what.some((b) => b.thing === null)) return null;
  const stages = [
    ...new Set(fasteners.flatMap((f) => fastenerFacts(f.entry).stages.map((s) => s.name))),
  ].filter((s) => s !== "");
  const near = nearest(name, stages);
  const title = titleOf(first);
  const related = [declared(first)];
  if (near)
    return {
      place,
      message: "stage-near",
      args: { title, name, near },
      related,
      fixes: [fixOf(place, near)],
    };
  const args: Args = { title, name, ...(stages.length > 0 ? { stages: stages.join(", ") } : {}) };
  return { place, message: "stage", args, hint: stages.length > 0 ? "stage-hint" : "", related };
}

/** The things named by the tightening that the name at this index belongs to. */
function actedOn(bindings: readonly Binding[], at: number): readonly Binding[] {
  const isWhat = (b: Binding | undefined): boolean => b?.role === "what" && b.within === "tighten";
  let last = at;
  while (last >= 0 && !isWhat(bindings[last])) last--;
  let first = last;
  while (isWhat(bindings[first - 1]) && bindings[first - 1]?.place.line === bindings[last]?.place.line)
    first--;
  return bindings.slice(first, last + 1);
}

/** The act a hazard is raised by is a word of the language, not a declared name. */
function actFaults(entry: Entry, { file, line }: Thing): Fault<Place>[] {
  const acts = [...constructs.values()].filter((c) => c.act).map((c) => c.id);
  return clausesOf(entry, "raised-by")
    .flatMap((d) => namesIn(d, "act"))
    .filter(({ name }) => !acts.includes(name))
    .map(({ name, at }) => {
      const place = placeAt(file, line, at);
      const near = nearest(name, acts);
      return { place, message: "act", args: { name }, fixes: near ? [fixOf(place, near)] : [] };
    });
}

const declared = (thing: Thing) => ({
  place: thing.place,
  message: "declared",
  args: { title: titleOf(thing) },
});
const fixOf = (place: Place, near: string) => ({
  title: { id: "fix", args: { near } },
  safe: false,
  changes: [{ place, text: near }],
});
