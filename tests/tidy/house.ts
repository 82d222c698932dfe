/**
 * The map of the house as a table: which folder may import what. The tidy tests hold the sources to it, and hold
 * DEVELOPERS.md to having a section for each folder. To open or widen a door, change a row here, with the reason there.
 */

/** One folder of modules, and what its modules may reach. */
export interface Room {
  /** The folder, from the root, without a slash at the end. */
  readonly path: string;
  /** Folders it may import from; what those may import, it may too. */
  readonly mayImport: readonly string[];
  /** Folders it may import types from, and nothing that runs. */
  readonly typesOnly?: readonly string[];
  /** Folders it must not import from although another row would let it. */
  readonly mustNotImport?: readonly string[];
  /** Packages it may import, by name. */
  readonly packages?: readonly string[];
  /** Modules of Node it may import; a pure room has none. */
  readonly node?: "all" | "all but files";
  /** Whether it may use clock, chance, locale, process and console; a pure room may not. */
  readonly usesSurroundings?: boolean;
}

/** The rooms in order: each may only import from rooms above it. */
export const HOUSE: readonly Room[] = [
  { path: "grammar", mayImport: [], packages: ["chevrotain", "fastest-levenshtein"] },
  { path: "server/units", mayImport: [] },
  { path: "server/mechanics", mayImport: ["server/units"] },
  { path: "server/phrases", mayImport: [] },
  { path: "server/facts", mayImport: ["grammar", "server/units"], typesOnly: ["server/phrases"] },
  { path: "server/model", mayImport: ["server/facts"] },
  { path: "server/walk", mayImport: ["server/model", "server/mechanics"] },
  {
    path: "server/rules",
    mayImport: ["server/model", "server/walk", "server/mechanics", "server/phrases"],
  },
  {
    path: "server/drawings",
    mayImport: ["server/mechanics", "server/walk", "server/model", "server/phrases"],
  },
  {
    path: "server/sheet",
    mayImport: ["server/model", "server/walk", "server/drawings", "server/phrases", "server/units"],
    // markdown-it reads the writer's inline Markdown into runs; only its parser is used, never its HTML.
    packages: ["@myriaddreamin/typst-ts-node-compiler", "markdown-it"],
  },
  { path: "server/compare", mayImport: ["server/model", "server/walk", "server/phrases"] },
  {
    path: "server/features",
    mayImport: ["server/rules", "server/sheet", "server/compare"],
    packages: ["markdown-it"],
  },
  {
    path: "server/project",
    mayImport: ["grammar", "server/facts", "server/model", "server/rules"],
    typesOnly: ["server/sheet"],
    packages: ["zod", "jsonc-parser", "picomatch", "@myriaddreamin/typst-ts-node-compiler"],
    node: "all",
    usesSurroundings: true,
  },
  {
    path: "server/press",
    mayImport: ["server/project", "server/sheet"],
    node: "all but files",
    usesSurroundings: true,
  },
  {
    path: "server/lsp",
    mayImport: ["server/features", "server/project", "server/press"],
    packages: ["vscode-languageserver"],
    node: "all but files",
    usesSurroundings: true,
  },
  {
    path: "server/cli",
    mayImport: ["server/features", "server/project", "server/press"],
    mustNotImport: ["server/lsp"],
    // The shapes of the files it writes for other programs are zod schemas, so that their JSON schema can be published.
    packages: ["zod"],
    node: "all but files",
    usesSurroundings: true,
  },
  {
    path: "server/tools",
    mayImport: ["server/cli", "server/lsp"],
    packages: ["esbuild", "markdown-it"],
    node: "all",
    usesSurroundings: true,
  },
  {
    path: "client",
    mayImport: [],
    // The requests that it sends to the server.
    typesOnly: ["server/lsp"],
    packages: ["vscode", "vscode-languageclient"],
    node: "all",
    usesSurroundings: true,
  },
];

/** The longest a module may be, in lines; generated ones may be longer. */
export const LONGEST_MODULE = 500;
