/**
 * The extension's package, unpacked where nothing of this checkout is in reach: all that it needs must be in it. The Typst
 * compiler and the fonts are looked for from the place of the program, so a folder elsewhere has only its own.
 */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { inflateRawSync } from "node:zlib";
import { afterAll, beforeAll, expect, test } from "vitest";
import {
  createProtocolConnection,
  type DocumentDiagnosticReport,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import type { PrintAnswer } from "../../server/lsp/requests";
import { pack } from "../../server/tools/pack";
import { root } from "../../server/tools/setup.mjs";
import { MACHINE, PROCEDURE } from "../lsp/texts";

let work: string;
let extension: string;
let manifest: {
  readonly version: string;
  readonly main: string;
  readonly contributes: {
    readonly languages: readonly {
      readonly configuration?: string;
      readonly icon?: Record<string, string>;
    }[];
    readonly grammars: readonly { readonly path: string }[];
    readonly jsonValidation: readonly { readonly url: string }[];
  };
};

beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), "torquil-vsix-"));
  const vsix = join(work, "torquil.vsix");
  await pack(`${process.platform}-${process.arch}`, vsix);
  for (const { name, contents } of unpacked(readFileSync(vsix))) {
    const file = join(work, name);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, contents);
  }
  extension = join(work, "extension");
  manifest = JSON.parse(readFileSync(join(extension, "package.json"), "utf8"));
});

/** The files in a zip archive, by its list at the end (PKWARE APPNOTE 4.3.12 and 4.3.16). */
function unpacked(zip: Buffer): { readonly name: string; readonly contents: Buffer }[] {
  const end = zip.lastIndexOf("PK\x05\x06", undefined, "latin1");
  const files: { name: string; contents: Buffer }[] = [];
  let at = zip.readUInt32LE(end + 16);
  for (let left = zip.readUInt16LE(end + 10); left > 0; left--) {
    const [method, size, nameLength] = [
      zip.readUInt16LE(at + 10),
      zip.readUInt32LE(at + 20),
      zip.readUInt16LE(at + 28),
    ];
    const name = zip.toString("utf8", at + 46, at + 46 + nameLength);
    const local = zip.readUInt32LE(at + 42);
    const start = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    const packed = zip.subarray(start, start + size);
    files.push({ name, contents: method === 0 ? packed : inflateRawSync(packed) });
    at += 46 + nameLength + zip.readUInt16LE(at + 30) + zip.readUInt16LE(at + 32);
  }
  return files;
}

afterAll(() => rmSync(work, { recursive: true, force: true }));

/** Runs a program of the package in its own folder; the environment leads to no packages. */
function environment(): NodeJS.ProcessEnv {
  const { NODE_PATH: _, ...rest } = process.env;
  return rest;
}

test("everything that the manifest names is in it", () => {
  const { languages, grammars, jsonValidation } = manifest.contributes;
  const named = [
    manifest.main,
    ...languages.flatMap(({ configuration = [], icon = {} }) =>
      [configuration, ...Object.values(icon)].flat(),
    ),
    ...grammars.map(({ path }) => path),
    ...jsonValidation.map(({ url }) => url),
    // The packer writes these two in small letters.
    "readme.md",
    "changelog.md",
    "LICENSE.txt",
    "THIRD-PARTY-LICENSES.txt",
    "media/sheet.js",
    "media/sheet.css",
  ];
  expect(named.filter((path) => !existsSync(join(extension, path)))).toEqual([]);
  expect(manifest.version).toBe(JSON.parse(readFileSync(join(root, "package.json"), "utf8")).version);
});

test("what is bundled stands with its licence", () => {
  const text = readFileSync(join(extension, "THIRD-PARTY-LICENSES.txt"), "utf8");
  for (const name of ["chevrotain", "vscode-languageclient", "vscode-languageserver", "zod", "markdown-it"])
    expect(text).toMatch(new RegExp(`^${name} \\d`, "m"));
  expect(text.split(/^-{80}$/m).filter((part) => part.trim().length < 200)).toEqual([]);
});

test("its own programs are small, and carry no map of their sources", () => {
  const dist = join(extension, "dist");
  const programs = readdirSync(dist).filter((name) => /\.m?js$/.test(name));
  const size = programs.reduce((sum, name) => sum + statSync(join(dist, name)).size, 0);
  expect(programs).toEqual(expect.arrayContaining(["client.js", "server.mjs", "torquil.mjs"]));
  expect(size).toBeLessThan(2_500_000);
  expect(readdirSync(dist).filter((name) => name.endsWith(".map"))).toEqual([]);
});

test("the client asks for nothing but the editor and Node", () => {
  const code = readFileSync(join(extension, "dist/client.js"), "utf8");
  const asked = new Set([...code.matchAll(/\brequire\("([^"]+)"\)/g)].map((found) => found[1] as string));
  const { stdout } = spawnSync(process.execPath, ["-p", "require('module').builtinModules.join()"], {
    encoding: "utf8",
  });
  const own = new Set(stdout.trim().split(","));
  expect([...asked].filter((name) => name !== "vscode" && !own.has(name.replace("node:", "")))).toEqual([]);
  expect(asked).toContain("vscode");
});

test("its command line checks a folder", () => {
  const folder = join(work, "texts");
  mkdirSync(folder);
  writeFileSync(join(folder, "wren-4.torquil"), MACHINE.replace("4 kg", "4"));
  const done = spawnSync(process.execPath, [join(extension, "dist/torquil.mjs"), "check", "--", "."], {
    cwd: folder,
    encoding: "utf8",
    env: environment(),
  });
  expect(done.stdout).toContain("[bare-number]");
  expect(done.status).toBe(1);
});

test("its server finds what is wrong and prints a PDF with what is in the package alone", async () => {
  const folder = join(work, "jobs");
  mkdirSync(folder);
  writeFileSync(join(folder, "wren-4.torquil"), MACHINE);
  writeFileSync(join(folder, "cover.torquil"), PROCEDURE);
  const uri = pathToFileURL(join(folder, "cover.torquil")).href;
  const server = spawn(process.execPath, [join(extension, "dist/server.mjs"), "--stdio"], {
    cwd: work,
    env: environment(),
    stdio: "pipe",
  });
  const connection = createProtocolConnection(
    new StreamMessageReader(server.stdout),
    new StreamMessageWriter(server.stdin),
  );
  connection.listen();
  const capabilities = { textDocument: { diagnostic: {} } };
  const workspaceFolders = [{ uri: pathToFileURL(folder).href, name: "jobs" }];
  await connection.sendRequest("initialize", {
    processId: null,
    rootUri: null,
    capabilities,
    workspaceFolders,
  });
  await connection.sendNotification("initialized", {});
  const broken = PROCEDURE.replace("fit cover\n", "fit covr\n");
  const textDocument = { uri, languageId: "torquil", version: 1, text: broken };
  await connection.sendNotification("textDocument/didOpen", { textDocument });
  const report: DocumentDiagnosticReport = await connection.sendRequest("textDocument/diagnostic", {
    textDocument: { uri },
  });
  expect(report.kind === "full" && report.items.map(({ code }) => code)).toContain("unknown-name");
  await connection.sendNotification("textDocument/didChange", {
    textDocument: { uri, version: 2 },
    contentChanges: [{ text: PROCEDURE }],
  });
  const printed: PrintAnswer = await connection.sendRequest("torquil/print", {
    textDocument: { uri },
    form: "pdf",
    draft: false,
  });
  expect(printed).toMatchObject({ kind: "printed", name: "W4-1.pdf" });
  const bytes = Buffer.from(printed.kind === "printed" ? printed.bytes : "", "base64");
  expect(bytes.subarray(0, 5).toString()).toBe("%PDF-");
  expect(await end(connection, server)).toBe(0);
});

async function end(connection: ProtocolConnection, server: ChildProcess): Promise<number | null> {
  const ended = new Promise<number | null>((done) => server.on("exit", done));
  await connection.sendRequest("shutdown");
  await connection.sendNotification("exit");
  return ended;
}
