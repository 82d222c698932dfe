/**
 * The tidy checks: each takes modules and gives what is wrong as lines of text, "path:line: what", none when all is well.
 */
import { LONGEST_MODULE, type Room } from "./house";
import { type Import, type Module, resolveImport, type Sources } from "./modules";

/** All that is wrong with the modules of a house, in the order of the modules. */
export function problemsOf(house: readonly Room[], modules: readonly Module[], sources: Sources): string[] {
  return [
    ...modules.flatMap((module) => [
      ...openingProblems(module),
      ...lengthProblems(module),
      ...roomProblems(house, module, sources),
    ]),
    ...circleProblems(modules, sources),
  ];
}

/** The rooms of a table that would let two rooms import each other, or that name a room not in the table. */
export function tableProblems(house: readonly Room[]): string[] {
  return house.flatMap((room, place) =>
    [...room.mayImport, ...(room.typesOnly ?? []), ...(room.mustNotImport ?? [])].flatMap((path) => {
      const other = house.findIndex((candidate) => candidate.path === path);
      return other >= 0 && other < place
        ? []
        : [`${room.path}: ${path} does not stand above it in the table`];
    }),
  );
}

/** The room a path lies in. */
export function roomOf(house: readonly Room[], path: string): Room | undefined {
  return house.find((room) => path.startsWith(`${room.path}/`));
}

/** The rooms that a text in Markdown has no section for: a heading of third level that starts with the folder's name. */
export function sectionProblems(rooms: readonly Room[], markdown: string): string[] {
  const headings = [...markdown.matchAll(/^### +`?([\w/-]+\/)/gm)].map((match) => match[1]);
  return rooms
    .filter(
      ({ path }) => !headings.includes(`${path}/`) && !headings.includes(`${path.replace("server/", "")}/`),
    )
    .map(({ path }) => `DEVELOPERS.md: no section "### ${path}/"`);
}

/** A module opens with a block comment of at least four words that says what it is for. */
export function openingProblems({ path, text }: Module): string[] {
  return openingWords(text) >= 4
    ? []
    : [`${path}:1: does not open with a comment /** … */ that says what it is for`];
}

/** A module written by hand is no longer than the house allows. */
export function lengthProblems({ path, text }: Module): string[] {
  const lines = text.replace(/\n$/, "").split("\n").length;
  if (lines <= LONGEST_MODULE || isGenerated(path, text)) return [];
  return [`${path}:${LONGEST_MODULE + 1}: has ${lines} lines, more than ${LONGEST_MODULE}`];
}

/** A module of a room imports and uses only what the room may; tests may import anything. */
export function roomProblems(house: readonly Room[], module: Module, sources: Sources): string[] {
  const room = roomOf(house, module.path);
  if (!room) {
    const known = module.path.startsWith("tests/") || !module.path.includes("/");
    return known ? [] : [`${module.path}:1: lies in no folder of the table of tests/tidy/house.ts`];
  }
  const wrongImports = module.imports.flatMap((one) => {
    const wrong = importProblem(house, room, module, one, sources);
    return wrong ? [`${module.path}:${one.line}: ${wrong}`] : [];
  });
  const wrongUses = room.usesSurroundings
    ? []
    : module.uses.map((use) => `${module.path}:${use.line}: ${room.path} must not use ${use.what}`);
  return [...wrongImports, ...wrongUses];
}

/** Modules that import each other in a circle, types included; each circle once. */
export function circleProblems(modules: readonly Module[], sources: Sources): string[] {
  const edges = new Map(modules.map((module) => [module.path, neighbours(module, sources)]));
  const finished = new Set<string>();
  const circles: string[] = [];
  const visit = (path: string, way: readonly string[]): void => {
    const start = way.indexOf(path);
    if (start >= 0) circles.push(`${path}:1: imports itself by ${[...way.slice(start), path].join(" → ")}`);
    if (start >= 0 || finished.has(path)) return;
    for (const next of edges.get(path) ?? []) visit(next, [...way, path]);
    finished.add(path);
  };
  for (const path of edges.keys()) visit(path, []);
  return circles;
}

function neighbours(module: Module, sources: Sources): string[] {
  const found = module.imports
    .filter((one) => one.specifier.startsWith("."))
    .map((one) => resolveImport(module.path, one.specifier, sources));
  return [...new Set(found.filter((path) => path !== undefined))];
}

function importProblem(
  house: readonly Room[],
  room: Room,
  module: Module,
  { specifier, typeOnly }: Import,
  sources: Sources,
): string | undefined {
  if (specifier.startsWith("node:")) return nodeProblem(room, specifier);
  if (!specifier.startsWith(".")) return packageProblem(room, specifier);
  const target = resolveImport(module.path, specifier, sources);
  if (!target) return `"${specifier}" leads to no source`;
  const other = roomOf(house, target);
  if (!other) return `${room.path} must not import ${target}`;
  const reach = reachOf(house, room);
  if (other === room || reach.values.has(other.path) || (typeOnly && reach.types.has(other.path)))
    return undefined;
  return reach.types.has(other.path)
    ? `${room.path} may import only types from ${other.path}`
    : `${room.path} must not import from ${other.path}`;
}

function nodeProblem(room: Room, specifier: string): string | undefined {
  if (room.node === "all") return undefined;
  if (room.node === "all but files" && !/^node:fs\b/.test(specifier)) return undefined;
  return `${room.path} must not import ${specifier}`;
}

function packageProblem(room: Room, specifier: string): string | undefined {
  const name = specifier.split("/", specifier.startsWith("@") ? 2 : 1).join("/");
  return room.packages?.includes(name) ? undefined : `${room.path} must not import the package ${name}`;
}

/** The rooms whose values, and whose types, a room may import: those of its row, and theirs in turn. */
function reachOf(house: readonly Room[], room: Room): { values: Set<string>; types: Set<string> } {
  const values = new Set<string>();
  const types = new Set<string>();
  const visit = ({ mayImport, typesOnly }: Room): void => {
    for (const path of typesOnly ?? []) types.add(path);
    for (const path of mayImport) {
      if (values.has(path)) continue;
      values.add(path);
      const next = house.find((candidate) => candidate.path === path);
      if (next) visit(next);
    }
  };
  visit(room);
  for (const path of room.mustNotImport ?? []) {
    values.delete(path);
    types.delete(path);
  }
  return { values, types };
}

function openingWords(text: string): number {
  const comment = /^(?:#!.*\n)?\s*\/\*\*([\s\S]*?)\*\//.exec(text)?.[1] ?? "";
  return comment.match(/\p{L}+/gu)?.length ?? 0;
}

function isGenerated(path: string, text: string): boolean {
  return path.includes("/generated/") || /^\/\*\*\s*(?:\*\s*)?Generated by /.test(text);
}
