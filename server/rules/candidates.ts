/**
 * The things a name could have meant where it stands: those in sight there, of a kind that fits.
 */
import { type Binding, type FileModel, fits, type Thing } from "../model";

const kept = new WeakMap<FileModel, Map<string, readonly Thing[]>>();

/** Things in sight from a use of a name, of a kind that fits, in the order of their names. */
export function candidatesFor(binding: Binding, file: FileModel): readonly Thing[] {
  const byPlace = kept.get(file) ?? new Map<string, readonly Thing[]>();
  kept.set(file, byPlace);
  const key = [binding.owner?.id ?? "", ...binding.accepts].join("\u0000");
  let found = byPlace.get(key);
  if (!found) {
    found = look(binding, file);
    byPlace.set(key, found);
  }
  return found;
}

function look({ owner, accepts }: Binding, file: FileModel): readonly Thing[] {
  const machine = file.procedures.find((p) => p.thing.owns === owner)?.machine;
  const own = machine ? [machine.thing, ...machine.things] : [];
  const visible = file.inSight.filter((t) => t.owner === owner || t.owner?.kind !== "procedure");
  const fitting = [...own, ...visible].filter((t) => t.named && fits(t, accepts));
  return [...new Set(fitting)].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}
