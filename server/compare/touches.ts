/**
 * Whom a change touches: of a machine file, every procedure and printed step that names what has changed; of a
 * procedure, those that follow it.
 */
import { allDetails } from "../facts";
import { jobOf, type Project, type Spot, stepAround, type Thing } from "../model";
import type { StepNamed, Touch } from "./change";
import { type Node, nearest } from "./node";

/** What names what, and what is joined in where, in a project. */
export interface Reach {
  readonly touchedBy: (node: Node) => readonly Touch[];
  /** The places of the jobs that name a thing. */
  readonly naming: (thing: Thing) => readonly Spot[];
}

interface Index {
  readonly byThing: Map<Thing, Spot[]>;
  /** By file and line: places that are joined in from another procedure. */
  readonly joined: Map<string, Spot[]>;
  readonly rootOf: Map<Spot, Spot>;
}

/** Works out a project's reach; the jobs are gone through when it is first asked. */
export function reachOf(project: Project): Reach {
  let known: Index | undefined;
  const index = (): Index => {
    known ??= indexOf(project);
    return known;
  };
  return {
    touchedBy: (node) => {
      const machine = nearest(node, ({ kind }) => kind === "machine");
      if (machine) return fromSpots(index(), spotsNaming(index(), node, machine));
      if (!nearest(node, ({ kind }) => kind === "procedure")) return [];
      return fromSpots(index(), index().joined.get(lineKey(node.place)) ?? []);
    },
    naming: (thing) => index().byThing.get(thing) ?? [],
  };
}

const lineKey = ({ file, line }: { readonly file: string; readonly line: number }): string =>
  `${line} ${file}`;

function indexOf(project: Project): Index {
  const index: Index = { byThing: new Map(), joined: new Map(), rootOf: new Map() };
  for (const file of project.files.values())
    for (const procedure of file.procedures) {
      const job = jobOf(project, procedure);
      for (const spot of job.spots) {
        index.rootOf.set(spot, job.root);
        if (spot.trail !== "") push(index.joined, lineKey(spot), spot);
        for (const thing of thingsIn(spot)) push(index.byThing, thing, spot);
      }
    }
  return index;
}

function push<K>(map: Map<K, Spot[]>, key: K, spot: Spot): void {
  const list = map.get(key);
  if (list) list.push(spot);
  else map.set(key, [spot]);
}

/** The things that a place of a job names. */
function thingsIn(spot: Spot): ReadonlySet<Thing> {
  const found = new Set<Thing>();
  for (const detail of allDetails(spot.entry))
    for (const { role, accepts, names } of detail.slots)
      if (role !== "name")
        for (const { name } of names) {
          const thing = spot.procedure.find(name, accepts);
          if (thing) found.add(thing);
        }
  return found;
}

/** Where the nearest thing a node stands in is named; of the machine itself, every procedure on it. */
function spotsNaming(index: Index, node: Node, machine: Node): readonly Spot[] {
  const things = nearest(node, ({ thing }) => thing !== null);
  const thing = things?.thing;
  if (!thing) return [];
  const spots = index.byThing.get(thing) ?? [];
  return things === machine ? spots.filter(({ entry }) => entry.construct === "on") : spots;
}

function fromSpots({ rootOf }: Index, spots: readonly Spot[]): readonly Touch[] {
  const byRoot = new Map<Spot, Map<number, StepNamed>>();
  for (const spot of spots) {
    const root = rootOf.get(spot) as Spot;
    const steps = byRoot.get(root) ?? new Map<number, StepNamed>();
    byRoot.set(root, steps);
    const step = stepAround(spot);
    if (step?.number != null) steps.set(step.number, { number: step.number, title: step.thing?.title ?? "" });
  }
  return [...byRoot].map(([root, steps]) => {
    const { id, name, title, file } = root.procedure.thing;
    return {
      procedure: { kind: "procedure", id, name, title },
      file,
      steps: [...steps.values()].sort((a, b) => a.number - b.number),
    };
  });
}
