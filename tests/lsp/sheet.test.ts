/** The extension's own requests: the sheet beside the text, and printing it. */
import { afterEach, beforeAll, expect, test } from "vitest";
import type { SemanticTokens } from "vscode-languageserver/node";
import type { PrintAnswer, PrintParams, SheetAnswer, SheetParams } from "../../server/lsp/requests";
import { bundleServer, type Client, connect, type Folder, makeFolder } from "./client";
import { find, MACHINE, PROCEDURE } from "./texts";

let client: Client;
let folder: Folder;

const SECOND = `
procedure cover-look "Look at the cover" {
  on wren-4
  section "Look" {
    check "Cover" {
      observe "Is it whole?"
      if no {
        end job "Order a cover."
      }
    }
  }
}
`;

beforeAll(async () => {
  await bundleServer();
});

async function start(files: Readonly<Record<string, string>> = {}): Promise<void> {
  folder = makeFolder({
    "torquil.json": "{}",
    "wren-4.torquil": MACHINE,
    "cover.torquil": PROCEDURE,
    ...files,
  });
  client = await connect({}, [folder.uri("")]);
}

afterEach(async () => {
  expect(await client.stop()).toBe(0);
  folder.dispose();
});

const sheet = (file: string, line?: number, shown?: SheetParams["shown"]): Promise<SheetAnswer> =>
  client.connection.sendRequest("torquil/sheet", {
    textDocument: { uri: folder.uri(file) },
    ...(line === undefined ? {} : { position: { line, character: 0 } }),
    ...(shown ? { shown } : {}),
  });
const print = (file: string, form: string, draft = false): Promise<PrintAnswer> =>
  client.connection.sendRequest("torquil/print", {
    textDocument: { uri: folder.uri(file) },
    form: form as PrintParams["form"],
    draft,
  });

async function shown(...args: Parameters<typeof sheet>): Promise<Extract<SheetAnswer, { kind: "sheet" }>> {
  const answer = await sheet(...args);
  if (answer.kind !== "sheet") throw new Error(answer.message);
  return answer;
}

test("a sheet comes in blocks, and says of what has an id where it is written", async () => {
  await start();
  const answer = await shown("cover.torquil", find(PROCEDURE, "fit cover-bolts").line);
  expect(answer.title).toBe("Take the cover off and put it back");
  expect(answer.notice).toBe("");
  const html = answer.blocks.join("\n");
  expect(html.match(/<section class="step"/g)).toHaveLength(2);
  // A strict content policy would not let an element carry its own style.
  expect(html).not.toMatch(/ style=|<script|<style/);
  const lineOf = (id: string): number | undefined => answer.places.find((place) => place.id === id)?.line;
  for (const { id } of answer.places) expect(id).not.toBe("");
  const [, step] = [...html.matchAll(/<section class="step" id="([^"]+)"/g)].map((found) => found[1] ?? "");
  expect(lineOf(step ?? "")).toBe(find(PROCEDURE, 'step "On"').line);
  const bolts = answer.places.find(({ id }) => id === "tightening:cover-bolts");
  expect(answer.files[bolts?.file ?? -1]).toBe(folder.uri("wren-4.torquil"));
  expect(bolts?.line).toBe(find(MACHINE, "fastener cover-bolts").line);
});

test("after an edit only the blocks that it touches are others", async () => {
  await start();
  await client.open(folder.uri("cover.torquil"), PROCEDURE);
  const before = await shown("cover.torquil");
  const { line, from, to } = find(PROCEDURE, '"Off"');
  await client.change(folder.uri("cover.torquil"), 2, { line, from, to, text: '"Take it off"' });
  const after = await shown("cover.torquil");
  const others = after.blocks.filter((block) => !before.blocks.includes(block));
  expect(others.length).toBeGreaterThan(0);
  expect(others.join("")).toContain("Take it off");
  expect(others.length).toBeLessThan(after.blocks.length / 2);
});

test("of several procedures the one at the cursor is meant, else the one that is shown", async () => {
  const text = PROCEDURE + SECOND;
  await start({ "cover.torquil": text });
  const at = (what: string): number => find(text, what).line;
  expect((await shown("cover.torquil", at("observe"))).of.procedure).toBe("cover-look");
  expect((await shown("cover.torquil", at('step "On"'))).of.procedure).toBe("cover-off");
  expect((await shown("cover.torquil", 0)).of.procedure).toBe("cover-off");
  const look = { uri: folder.uri("cover.torquil"), procedure: "cover-look" };
  expect((await shown("cover.torquil", 0, look)).of.procedure).toBe("cover-look");
  expect((await shown("wren-4.torquil", 3, look)).of.procedure).toBe("cover-look");
});

test("a machine has no sheet: the answer says so and names what rests on it", async () => {
  await start();
  const answer = await sheet("wren-4.torquil");
  expect(answer).toEqual({
    kind: "none",
    message: "There is no procedure in wren-4.torquil. These rest on it.",
    others: [
      {
        uri: folder.uri("cover.torquil"),
        procedure: "cover-off",
        title: "Take the cover off and put it back",
      },
    ],
  });
});

test("a text outside the language, and one that is not there, have no sheet", async () => {
  await start();
  expect(await sheet("readme.md")).toMatchObject({ kind: "none", others: [] });
  expect(await print("readme.md", "pdf")).toMatchObject({ kind: "refused", findings: [] });
});

test("a line that cannot be read is told of with the sheet", async () => {
  await start({
    "cover.torquil": PROCEDURE.replace("remove cover-bolts, cover", "remoove cover-bolts, ???"),
  });
  const answer = await shown("cover.torquil");
  expect(answer.unread).toBe(true);
  const line = find(PROCEDURE, "remove cover-bolts, cover").line + 1;
  expect(answer.notice).toBe(
    `Line ${line} of cover.torquil cannot be read yet, so the sheet does not show what is meant there.`,
  );
});

test("the sheet is printed as PDF and as a page, as the texts stand in the editor", async () => {
  await start();
  await client.open(folder.uri("cover.torquil"), PROCEDURE.replace('"W4-1"', '"W4-2"'));
  const pdf = await print("cover.torquil", "pdf");
  if (pdf.kind !== "printed") throw new Error(pdf.message);
  expect(pdf.name).toBe("W4-2.pdf");
  const bytes = Buffer.from(pdf.bytes, "base64");
  expect(bytes.subarray(0, 5).toString()).toBe("%PDF-");
  expect(bytes.subarray(-6).toString().trim()).toBe("%%EOF");
  const page = await print("cover.torquil", "html");
  if (page.kind !== "printed") throw new Error(page.message);
  expect(Buffer.from(page.bytes, "base64").toString()).toContain("<title>Take the cover off and put it back");
  // The press is a process of its own that must say nothing on what the server speaks over.
  expect(client.errors()).toBe("");
});

test("what has errors is refused with their names, and printed as a draft", async () => {
  await start({
    "cover.torquil": PROCEDURE.replace("      tighten cover-bolts {", "      tighten cover-boltz {"),
  });
  const answer = await print("cover.torquil", "html");
  if (answer.kind !== "refused") throw new Error("It was printed.");
  expect(answer.message).toMatch(
    /^“Take the cover off and put it back” is not printed: it has \d+ errors?\.$/,
  );
  expect(answer.findings[0]).toMatch(/^cover\.torquil:\d+: .*cover-boltz/);
  const draft = await print("cover.torquil", "html", true);
  if (draft.kind !== "printed") throw new Error(draft.message);
  expect(Buffer.from(draft.bytes, "base64").toString()).toContain('class="draft" data-draft="DRAFT"');
});

test("wrong parameters are answered in words", async () => {
  await start();
  await expect(print("cover.torquil", "docx")).rejects.toThrow('form must be "pdf" or "html".');
  await expect(client.connection.sendRequest("torquil/sheet", {})).rejects.toThrow(
    "textDocument.uri must be a string.",
  );
  await expect(
    client.connection.sendRequest("torquil/sheet", { textDocument: { uri: folder.uri("") }, shown: 3 }),
  ).resolves.toMatchObject({ kind: "none" });
});

test("names are told apart by what they are, and where they are declared", async () => {
  await start();
  const { data }: SemanticTokens = await client.connection.sendRequest("textDocument/semanticTokens/full", {
    textDocument: { uri: folder.uri("cover.torquil") },
  });
  const legend = client.greeting.capabilities.semanticTokensProvider?.legend;
  const lines = PROCEDURE.split("\n");
  const tokens: string[] = [];
  let [line, start_] = [0, 0];
  for (let i = 0; i < data.length; i += 5) {
    const [down = 0, along = 0, length = 0, type = 0, modifiers = 0] = data.slice(i, i + 5);
    start_ = down > 0 ? along : start_ + along;
    line += down;
    const word = lines[line]?.slice(start_, start_ + length);
    tokens.push(`${word} ${legend?.tokenTypes[type]}${modifiers & 1 ? " declared" : ""}`);
  }
  expect(tokens).toEqual(
    expect.arrayContaining([
      "cover-off namespace declared",
      "wren-4 class",
      "wrench interface declared",
      "cover-bolts property",
      "cover variable",
      "wrench interface",
    ]),
  );
});
