/** `torquil print`: what is printed, how it is called, what is refused, and that nothing is written by halves. */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeAll, expect, test } from "vitest";
import { outputNames } from "../../server/press/names";
import { inProcess } from "./in-process";
import { buildBundle, type Content, discard, folderWith, torquil } from "./process";

beforeAll(buildBundle);

let folder = "";
afterEach(() => {
  if (folder) discard(folder);
  folder = "";
});

const MACHINE = `torquil 1

machine winch "Hand winch" {
  part cover "Drum cover"
  fastener cover-bolts "Cover bolts" {
    secures cover
    tighten 10 N·m
  }
}
`;

/** A procedure on the winch; clean when `lines` put back what they take off. */
function job(name: string, document: string, lines = 'note {\n      "Look at the drum."\n      }'): string {
  return `torquil 1

use "winch.torquil"

procedure ${name} "Look at the drum: ${name}" {
  on winch
${document && `  document "${document}"\n`}  section "Work" {
    step "Look" {
      ${lines}
    }
  }
}
`;
}

/** Runs `print` in a folder with these files beside the winch. */
function printed(contents: Readonly<Record<string, Content>>, ...args: string[]) {
  folder = folderWith({ "winch.torquil": MACHINE, ...contents });
  return torquil(folder, ["print", ...args]);
}

test("a procedure becomes a PDF named by its document number, and it is told where and how long", () => {
  const { code, out, err } = printed(
    { "look.torquil": job("look", "W/7 041") },
    "look.torquil",
    "--out",
    "sheets/new",
  );
  expect({ code, err }).toEqual({ code: 0, err: "" });
  expect(out).toMatch(/^sheets\/new\/W-7-041\.pdf {2}\d+ pages?, Look at the drum: look\n$/);
  expect(readFileSync(join(folder, "sheets/new/W-7-041.pdf"), "latin1")).toMatch(/^%PDF-1\.\d/);
  expect(readdirSync(join(folder, "sheets/new"))).toEqual(["W-7-041.pdf"]);
});

test("the same procedure gives the same bytes from two runs", () => {
  printed({ "look.torquil": job("look", "W-1") }, "look.torquil", "--out", "one");
  torquil(folder, ["print", "look.torquil", "--out", "two"], {
    env: { TZ: "Asia/Tokyo", LANG: "de_DE.UTF-8" },
  });
  expect(readFileSync(join(folder, "one/W-1.pdf"))).toEqual(readFileSync(join(folder, "two/W-1.pdf")));
});

test("many are printed by processes beside, in order, none left out", () => {
  const many = Object.fromEntries(
    Array.from({ length: 10 }, (_, i) => [`j${i}.torquil`, job(`j${i}`, `W-${i}`)]),
  );
  const { code, out } = printed(many);
  expect(code).toBe(0);
  expect(out.split("\n").map((line) => line.split(" ")[0])).toEqual([
    ...Array.from({ length: 10 }, (_, i) => `W-${i}.pdf`),
    "",
  ]);
});

test("a web page is printed with the language, paper and units that are asked for, else those of the settings", async () => {
  const entries = {
    "/home/winch.torquil": MACHINE,
    "/home/look.torquil": job("look", ""),
    "/home/torquil.json": '{ "language": "de", "paper": "letter" }',
  };
  const own = await inProcess(["print", "--to", "html"], entries);
  expect(own).toMatchObject({ code: 0, out: "look.html  Look at the drum: look\n", err: "" });
  const page = own.read("/home/look.html") ?? "";
  expect(page).toMatch(/^<!DOCTYPE html>/);
  expect(page).toContain("size: letter");
  const asked = await inProcess(["print", "--to", "html", "--language", "fr", "--paper", "a4"], entries);
  expect(asked.read("/home/look.html")).toContain("size: A4");
  expect(asked.read("/home/look.html")).not.toBe(page);
});

/** The cells of each row of the page that lists sheets, links as their addresses. */
function rowsOf(page: string): string[][] {
  return [...page.matchAll(/<tr>(<th scope="row".*?)<\/tr>/g)].map(([, row = ""]) =>
    [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/g)].map(([, cell = ""]) =>
      cell.includes("<a") ? [...cell.matchAll(/href="([^"]*)"/g)].map(([, to]) => to).join(" ") : cell,
    ),
  );
}

test("a folder printed into a folder gets a page that lists the sheets, in their language, sorted", async () => {
  const revision = '  revision B 2026-03-01 "Again."\n';
  const entries = {
    "/home/torquil.json": '{ "language": "de" }',
    "/home/winch.torquil": MACHINE,
    "/home/z.torquil": job("z", "W 1").replace("  section", `${revision}  section`),
    "/home/a.torquil": job("a", "Ü-2").replace("  section", `  status draft\n${revision}  section`),
    "/home/b.torquil": job("b", ""),
    "/home/c.torquil": job("c", "W-0", "remove no-such-part"),
  };
  const { code, out, read } = await inProcess(["print", "--to", "html", "--out", "sheets"], entries);
  expect(code).toBe(1);
  expect(out.split("\n").at(-2)).toBe("sheets/index.html  lists 4 procedures");
  const page = read("/home/sheets/index.html") ?? "";
  expect(page).toContain('<html lang="de">');
  expect(page).toContain("<h1>Arbeitsanweisungen</h1>");
  expect(rowsOf(page)).toEqual([
    ["Look at the drum: z", "W 1", "B, 2026-03-01", "Freigegeben", "Hand winch", "W-1.html"],
    ["Look at the drum: c", "W-0", "", "Nicht gedruckt: muss erst berichtigt werden", "Hand winch", ""],
    [
      "Look at the drum: a",
      "Ü-2",
      "B, 2026-03-01",
      "Entwurf: nicht für die Arbeit an einer Maschine",
      "Hand winch",
      "%C3%9C-2.html",
    ],
    ["Look at the drum: b", "", "", "Nicht freigegeben: noch keine Revision", "Hand winch", "b.html"],
  ]);
  // It reaches for nothing: no script, no address but those of the sheets beside it.
  expect(page).not.toMatch(/<script|https?:|src=|@import|url\(/);
  const english = await inProcess(["print", "--to", "html", "--out", "sheets", "--language", "en"], entries);
  expect(english.read("/home/sheets/index.html")).toContain("<h1>Procedures</h1>");
});

test("the page links both forms, and every link leads to a file", () => {
  const { code, out } = printed(
    { "look.torquil": job("look", "W-1"), "again.torquil": job("again", "") },
    ".",
    "--to",
    "both",
    "--out",
    "sheets",
  );
  expect(code).toBe(0);
  expect(out.split("\n")).toHaveLength(6);
  const page = readFileSync(join(folder, "sheets/index.html"), "utf8");
  const links = rowsOf(page).map((row) => row.at(-1));
  expect(links).toEqual(["W-1.pdf W-1.html", "again.pdf again.html"]);
  expect(readdirSync(join(folder, "sheets")).sort()).toEqual([
    "W-1.html",
    "W-1.pdf",
    "again.html",
    "again.pdf",
    "index.html",
  ]);
});

test("no page is written where none is wanted, nor over one of somebody else, nor over a sheet", async () => {
  const entries = {
    "/home/winch.torquil": MACHINE,
    "/home/jobs/look.torquil": job("look", "index").replace('"winch', '"../winch'),
    "/home/torquil.json": "{}",
  };
  const page = async (...args: string[]) =>
    (await inProcess(["print", "--to", "html", "--out", "s", ...args], entries)).read("/home/s/index.html");
  expect(await page("jobs/look.torquil")).toMatch(/class="bar"/);
  expect(await page("jobs", "--no-index")).toMatch(/class="bar"/);
  const listed = await inProcess(["print", "jobs", "--to", "html", "--out", "s"], entries);
  expect(listed.read("/home/s/index-look.html")).toMatch(/class="bar"/);
  expect(rowsOf(listed.read("/home/s/index.html") ?? "")[0]?.at(-1)).toBe("index-look.html");
  const mine = { ...entries, "/home/s/index.html": "<h1>Our site</h1>" };
  const kept = await inProcess(["print", "jobs", "--to", "html", "--out", "s"], mine);
  expect(kept.code).toBe(1);
  expect(kept.err).toMatch(/s\/index\.html is not a list of sheets, so it is left alone\./);
  expect(kept.read("/home/s/index.html")).toBe("<h1>Our site</h1>");
  const again = { ...entries, "/home/s/index.html": listed.read("/home/s/index.html") ?? "" };
  expect((await inProcess(["print", "jobs", "--to", "html", "--out", "s"], again)).code).toBe(0);
});

test("one that cannot be set never keeps the others from being printed", () => {
  const bad = job("bad", "W-2").replace("Look at the drum.", "Look at the 벨트.");
  const { code, out, err } = printed(
    { "a.torquil": job("a", "W-1"), "bad.torquil": bad, "c.torquil": job("c", "W-3") },
    ".",
    "--out",
    "sheets",
  );
  expect(code).toBe(1);
  expect(err).toMatch(/^error: “Look at the drum: bad” is not printed\. No font has the character “벨”/);
  expect(out.split("\n").map((line) => line.split(" ")[0])).toEqual([
    "sheets/W-1.pdf",
    "sheets/W-3.pdf",
    "sheets/index.html",
    "",
  ]);
  expect(rowsOf(readFileSync(join(folder, "sheets/index.html"), "utf8")).map((row) => row.at(-1))).toEqual([
    "W-1.pdf",
    "",
    "W-3.pdf",
  ]);
});

test("a procedure with errors is refused with the errors, and printed only as a draft", async () => {
  const entries = {
    "/home/winch.torquil": MACHINE,
    "/home/look.torquil": job("look", "", "remove no-such-part"),
    "/home/good.torquil": job("good", ""),
  };
  const refused = await inProcess(["print", "--to", "html"], entries);
  expect(refused.code).toBe(1);
  expect(refused.err).toMatch(/^look\.torquil:9:14: error: .*\[unknown-name\]$/m);
  expect(refused.err).toMatch(
    /“Look at the drum: look” \(look\.torquil\) is not printed: it has 1 error\. --draft prints it all the same\.\n$/,
  );
  expect(refused.out).toBe("good.html  Look at the drum: good\n");
  expect(refused.read("/home/look.html")).toBeUndefined();
  const draft = await inProcess(["print", "--to", "html", "--draft", "look.torquil"], entries);
  expect(draft.code).toBe(0);
  expect(draft.read("/home/look.html")).toContain("DRAFT");
});

test("errors in a file that is used refuse it too; unreadable input is 2, and the others are printed", async () => {
  const entries = {
    "/home/winch.torquil": MACHINE.replace("10 N·m", "10 Nq"),
    "/home/look.torquil": job("look", ""),
  };
  expect((await inProcess(["print", "--to", "html"], entries)).code).toBe(1);
  const bad = {
    "/home/winch.torquil": MACHINE,
    "/home/look.torquil": job("look", ""),
    "/home/bad.torquil": new Uint8Array([0xff]),
  };
  const { code, out, err } = await inProcess(["print", "--to", "html"], bad);
  expect({ code, out }).toEqual({ code: 2, out: "look.html  Look at the drum: look\n" });
  expect(err).toMatch(/^bad\.torquil:1:1: error: This is not UTF-8/);
});

test("where there is no procedure, nothing is printed", async () => {
  const { code, err } = await inProcess(["print"], { "/home/winch.torquil": MACHINE });
  expect(code).toBe(2);
  expect(err).toContain("There is no procedure");
});

test("wrong use is told", async () => {
  const wrong = async (...args: string[]) => (await inProcess(["print", ...args])).err.split("\n")[0];
  expect(await wrong("--to", "pfd")).toBe('error: The option --to does not take "pfd". Did you mean pdf?');
  expect(await wrong("--language", "xx")).toBe(
    'error: The option --language does not take "xx". It takes en, de, fr, es.',
  );
  expect(await wrong("--papre", "a4")).toBe("error: There is no option --papre. Did you mean --paper?");
});

test("a place that cannot be written is told, and what stood there stays", () => {
  const { code, err } = printed(
    { "look.torquil": job("look", "W-1"), sheets: "a file\n" },
    "look.torquil",
    "--out",
    "sheets",
  );
  expect(code).toBe(1);
  expect(err).toMatch(
    /^error: “Look at the drum: look” is not printed\. sheets\/W-1\.pdf could not be written\./,
  );
  expect(readFileSync(join(folder, "sheets"), "utf8")).toBe("a file\n");
});

test("an old sheet stands until the new one is whole", () => {
  folder = folderWith({ "winch.torquil": MACHINE, "look.torquil": job("look", "W-1") });
  writeFileSync(join(folder, "W-1.html"), "the old sheet");
  // The system lets this process write no file of more than a few kilobytes.
  const { code, out, err } = torquil(folder, ["print", "--to", "html"], { fileBlocks: 4 });
  expect(out).toBe("");
  expect(code).not.toBe(0);
  expect(err).not.toMatch(/^\s+at /m);
  expect(readFileSync(join(folder, "W-1.html"), "utf8")).toBe("the old sheet");
  expect(torquil(folder, ["print", "--to", "html"]).code).toBe(0);
  expect(readFileSync(join(folder, "W-1.html"), "utf8")).toMatch(/^<!DOCTYPE html>/);
  expect(readdirSync(folder).sort()).toEqual(["W-1.html", "look.torquil", "winch.torquil"]);
});

test("names of sheets are such as every system takes, and all different", () => {
  const names = (...given: [string, string][]) =>
    outputNames(given.map(([document, name]) => ({ document, name })));
  expect(names(["SK27-0410", "a"], ["", "belt-service"], ["../../etc/x", "b"], ["Ä 1/2", "c"])).toEqual([
    "SK27-0410",
    "belt-service",
    "etc-x",
    "Ä-1-2",
  ]);
  expect(names(["N-1", "a"], ["n-1", "b"], ["", "c"])).toEqual(["N-1-a", "n-1-b", "c"]);
  expect(names(["N-1", "a"], ["N-1", "A"])).toEqual([null, null]);
  const inFiles = ["a/x.torquil", "b/x.torquil", "b/x.torquil"].map((file) => ({
    document: "",
    name: "p",
    file,
  }));
  expect(outputNames(inFiles.slice(0, 2))).toEqual(["p-a-x", "p-b-x"]);
  expect(outputNames(inFiles)).toEqual(["p-a-x", null, null]);
  expect(outputNames([{ document: "Index", name: "p" }], ["index"])).toEqual(["Index-p"]);
  expect(names(["con", "a"], ["***", "b"], ["x".repeat(500), "c"])).toEqual(["_con", "b", "x".repeat(80)]);
});
