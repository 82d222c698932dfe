/**
 * Runs a series of happenings on a project that is kept open, and beside it on a fresh one after each: what both find
 * and tell must be the same.
 */
import { below, seeded } from "../support/random";
import type { Program } from "./program";
import { type At, type Happening, SETTINGS, type State, Writer } from "./random-edits";

type Workspace = ReturnType<Program["project"]["createWorkspace"]>;
type MemoryFiles = ReturnType<Program["project"]["memoryFiles"]>;

const ROOT = "/p";
const onDisk = (file: string): string => `${ROOT}/${file}`;

/** A project that is kept open and changed step by step, as the language server does. */
export class Kept {
  readonly workspace: Workspace;
  private readonly files: MemoryFiles;
  private readonly open = new Map<string, ReturnType<Program["grammar"]["readDocument"]>>();

  constructor(
    private readonly program: Program,
    state: State,
  ) {
    this.files = diskOf(program, state);
    this.workspace = program.project.createWorkspace(this.files, ROOT);
    for (const [file, text] of state.open) this.put(file, program.grammar.readDocument(text));
  }

  apply(happening: Happening, state: State): void {
    const { file } = happening;
    if (happening.kind === "disk") {
      if (happening.text === null) this.files.remove(onDisk(file));
      else this.files.set(onDisk(file), happening.text);
      this.workspace.refresh([file]);
    } else if (happening.kind === "open") {
      this.put(file, this.program.grammar.readDocument(state.open.get(file) ?? ""));
    } else if (happening.kind === "close") {
      this.open.delete(file);
      this.workspace.remove(file);
      this.workspace.refresh([file]);
    } else if (happening.kind === "edit") {
      const before = this.open.get(file);
      if (before) this.put(file, this.program.grammar.applyEdits(before, [happening]));
    }
  }

  private put(file: string, document: ReturnType<Program["grammar"]["readDocument"]>): void {
    this.open.set(file, document);
    this.workspace.setOverlay(file, document);
  }
}

function diskOf(program: Program, state: State): MemoryFiles {
  return program.project.memoryFiles(
    Object.fromEntries([...state.disk].map(([file, text]) => [onDisk(file), text])),
  );
}

/** A fresh start from the texts. */
export function fresh(program: Program, state: State): Workspace {
  const workspace = program.project.createWorkspace(diskOf(program, state), ROOT);
  for (const [file, text] of state.open) workspace.setOverlay(file, text);
  return workspace;
}

/** Everything found, as text. */
export function foundIn(workspace: Workspace): string {
  const files = [...workspace.check()]
    .filter(([, findings]) => findings.length > 0)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return JSON.stringify([files, workspace.problems(), workspace.settingsProblems()]);
}

/** What the features tell at a place of a file. */
export function toldAt({ features }: Program, workspace: Workspace, file: string, at: At): string {
  const project = workspace.project();
  const model = project.files.get(file);
  if (!model) return "no such file";
  const findings = workspace.check().get(file) ?? [];
  const stretch = { from: { line: at.line, character: 0 }, to: at };
  return JSON.stringify([
    features.hover(project, file, at),
    features.completion(project, file, at),
    features.definition(project, file, at),
    features.references(project, file, at, true),
    features.highlights(project, file, at),
    features.rename(project, file, at, "another-name"),
    features.inlayHints(model, at.line, at.line + 20, { otherUnit: true, stepNumbers: true }),
    features
      .actions(model, findings, stretch)
      .map(({ title, edits }) => [title, edits.map((e) => e.text.trim())]),
  ]);
}

/** What the features tell of a whole file. */
export function toldOf({ features }: Program, workspace: Workspace, file: string): string {
  const model = workspace.project().files.get(file);
  return model
    ? JSON.stringify([features.outline(model), features.folding(model), features.pathLinks(model)])
    : "no such file";
}

export interface Series {
  readonly start: State;
  readonly settings: readonly string[];
  readonly seed: number;
  readonly count: number;
  /** Features are compared after every so many. */
  readonly featuresEvery: number;
}

export interface Outcome {
  readonly done: number;
  /** How many changed what is found. */
  readonly changed: number;
  /** What happened how often. */
  readonly kinds: Readonly<Record<string, number>>;
  /** The first difference between the kept and the fresh project; null where there was none. */
  readonly difference: {
    readonly after: number;
    readonly happening: Happening;
    readonly kept: string;
    readonly fresh: string;
  } | null;
}

/** Runs a series. It ends at the first difference. `again` gives the program that starts fresh, by number. */
export async function runSeries(
  kept: Program,
  again: (after: number) => Program | Promise<Program>,
  series: Series,
): Promise<Outcome> {
  const writer = new Writer(seeded(series.seed), series.start, series.settings);
  const project = new Kept(kept, writer.state);
  const kinds: Record<string, number> = {};
  let changed = 0;
  let before = foundIn(project.workspace);
  const start = await again(0);
  if (before !== foundIn(fresh(start, writer.state)))
    throw new Error("They differ before anything has happened.");
  for (let done = 1; done <= series.count; done++) {
    const happening = writer.next();
    kinds[happening.why] = (kinds[happening.why] ?? 0) + 1;
    project.apply(happening, writer.state);
    const program = await again(done);
    const other = fresh(program, writer.state);
    const differ = (a: string, b: string): Outcome | null =>
      a === b
        ? null
        : { done, changed, kinds, difference: { after: done, happening, ...firstDifference(a, b) } };
    const found = foundIn(project.workspace);
    const different =
      differ(found, foundIn(other)) ??
      (done % series.featuresEvery === 0
        ? compareFeatures(kept, project.workspace, program, other, writer, differ)
        : null);
    if (different) return different;
    if (found !== before) changed++;
    before = found;
  }
  return { done: series.count, changed, kinds, difference: null };
}

function compareFeatures(
  kept: Program,
  workspace: Workspace,
  program: Program,
  other: Workspace,
  writer: Writer,
  differ: (a: string, b: string) => Outcome | null,
): Outcome | null {
  const files = [...writer.state.open.keys(), ...writer.state.disk.keys()].filter(
    (file) => file !== SETTINGS,
  );
  const file = files[below(writer.random, files.length)] ?? "";
  const text = writer.state.open.get(file) ?? writer.state.disk.get(file) ?? "";
  const lines = text.split(/\r\n|\n|\r/);
  const line = below(writer.random, lines.length);
  const at = { line, character: below(writer.random, (lines[line]?.length ?? 0) + 1) };
  return (
    differ(toldAt(kept, workspace, file, at), toldAt(program, other, file, at)) ??
    differ(toldOf(kept, workspace, file), toldOf(program, other, file))
  );
}

/** The two texts from shortly before where they part. */
function firstDifference(a: string, b: string): { kept: string; fresh: string } {
  let at = 0;
  while (at < a.length && a[at] === b[at]) at++;
  const from = Math.max(0, at - 200);
  return { kept: a.slice(from, at + 300), fresh: b.slice(from, at + 300) };
}
