/** The extension's manifest against what it declares: its files, its commands, and the lines that the command line prints. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { USUAL_PREFERENCES } from "../../server/lsp/preferences";
import { root } from "../../server/tools/setup.mjs";
import { allUnits } from "../../server/units/table";
import { inProcess } from "../cli/in-process";
import { examplesIn } from "../support/examples";

const manifest = JSON.parse(readFileSync(join(root, "client/package.json"), "utf8"));
const { contributes } = manifest;
const sources = readdirSync(join(root, "client/src"))
  .map((name) => readFileSync(join(root, "client/src", name), "utf8"))
  .join("\n");

test("every command that it declares is there, and every one that is there is declared", () => {
  const declared = contributes.commands.map(({ command }: { command: string }) => command).sort();
  const there = [...sources.matchAll(/(?:registerCommand|command)\("(torquil\.\w+)"/g)].map(
    (found) => found[1],
  );
  expect(there.sort()).toEqual(declared);
  for (const entries of Object.values<{ command: string }[]>(contributes.menus))
    for (const { command } of entries) expect(declared).toContain(command);
  for (const { command } of contributes.keybindings) expect(declared).toContain(command);
});

test("every setting that it declares is read, with the same usual value", () => {
  const properties: Record<string, { default: unknown }> = contributes.configuration.properties;
  const usual = Object.entries(USUAL_PREFERENCES.inlayHints);
  for (const [key, value] of usual) expect(properties[`torquil.inlayHints.${key}`]?.default).toBe(value);
  const own = Object.keys(properties).filter((key) => !key.startsWith("torquil.inlayHints."));
  // The protocol's own client reads this one.
  const read = own.filter((key) => key !== "torquil.trace.server").map((key) => key.replace("torquil.", ""));
  expect(Object.keys(properties).length - own.length).toBe(usual.length);
  for (const key of read) expect(sources).toContain(`"${key}"`);
});

test("it sends nothing anywhere", () => {
  expect(sources).not.toMatch(/telemetry|https?:\/\/|fetch\(|node:https?|node:net/i);
});

test("it may run in a folder that is not trusted, and says why", () => {
  const { supported, description } = manifest.capabilities.untrustedWorkspaces;
  expect(supported).toBe(true);
  expect(description).toMatch(/runs nothing/);
});

test("icons and configuration are there", () => {
  const [language] = contributes.languages;
  for (const file of [language.configuration, language.icon.light, language.icon.dark, manifest.icon])
    expect(existsSync(join(root, "client", file))).toBe(true);
});

test("every view that it declares is made, in a container that is there", () => {
  const containers: { id: string; icon: string }[] = contributes.viewsContainers.activitybar;
  for (const { icon } of containers) expect(existsSync(join(root, "client", icon))).toBe(true);
  const places = ["explorer", ...containers.map(({ id }) => id)];
  for (const [place, views] of Object.entries<{ id: string }[]>(contributes.views)) {
    expect(places).toContain(place);
    for (const { id } of views) expect(sources).toContain(`"${id}"`);
  }
});

test("the signs of the language are not marked as look-alikes, and letters of any language are not marked at all", () => {
  const defaults = contributes.configurationDefaults["[torquil]"];
  expect(defaults["editor.unicodeHighlight.nonBasicASCII"]).toBe(false);
  const allowed = defaults["editor.unicodeHighlight.allowedCharacters"];
  const signs = new Set(
    allUnits.flatMap(({ print }) => [...print].filter((sign) => sign > "~" && !/\p{L}/u.test(sign))),
  );
  expect(signs).toContain("·");
  for (const sign of signs) expect(allowed, sign).toHaveProperty([sign], true);
});

test("a name of the language is one word to the editor", () => {
  const { wordPattern, indentationRules } = JSON.parse(
    readFileSync(join(root, "client/language-configuration.json"), "utf8"),
  );
  const words = "tighten cover-bolts, Bügel-2  with wrench".match(
    new RegExp(wordPattern.pattern, `${wordPattern.flags}g`),
  );
  expect(words).toEqual(["tighten", "cover-bolts", "Bügel-2", "with", "wrench"]);
  const deeper = new RegExp(indentationRules.increaseIndentPattern);
  for (const line of ['step "Off" {', "kit { // what is in it", '  note "{" {']) expect(line).toMatch(deeper);
  for (const line of ['place "under {"', "// step {", "}"]) expect(line).not.toMatch(deeper);
  expect("  }").toMatch(new RegExp(indentationRules.decreaseIndentPattern));
});

test("the problem matcher reads every finding that the command line prints, and nothing else", async () => {
  const [{ pattern, owner }] = contributes.problemMatchers;
  const line = new RegExp(pattern.regexp);
  const examples = examplesIn("examples/faulty").map(({ path, text }) => [`/home/${path}`, text] as const);
  const files = Object.fromEntries([...examples, ["/home/torquil.json", '{ "paper": "a5" }']]);
  const { findings, problems } = JSON.parse((await inProcess(["check", "--json", "."], files)).out);
  const { out, err } = await inProcess(["check", "--", "."], files);
  const matched = `${err}${out}`.split("\n").flatMap((text) => {
    const found = line.exec(text);
    return found
      ? [
          `${found[pattern.file]}:${found[pattern.line]}:${found[pattern.column]} ${found[pattern.severity]} ${found[pattern.code] ?? ""}`,
        ]
      : [];
  });
  const wanted = [...problems, ...findings].map(({ file, range: { start }, severity, code }) => {
    const place = `${file}:${start.line + 1}:${start.character + 1}`;
    return `${place} ${severity ?? "error"} ${code ?? ""}`;
  });
  expect(matched.sort()).toEqual(wanted.sort());
  expect(findings.length).toBeGreaterThan(30);
  // The same owner as the server's own findings, so that a file does not have each twice.
  expect(owner).toBe("torquil");
});
