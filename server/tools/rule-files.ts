/**
 * The files a new rule begins with: its own, its fixture, and the registry with its entry. Each compiles as it is, and
 * the rule finds nothing until it is filled in.
 */

/** A file to write, from the root of the checkout. */
export interface RuleFile {
  readonly path: string;
  readonly text: string;
}

/** What keeps a code from being used, in words; undefined where nothing does. */
export function codeProblem(code: string, taken: readonly string[]): string | undefined {
  if (!/^[a-z]+(-[a-z]+)+$/.test(code)) {
    return `"${code}" is no code: write two or more words in small letters with hyphens between them, such as bolt-too-long.`;
  }
  if (taken.includes(code)) return `There is a finding ${code} already: see server/rules/CATALOGUE.md.`;
  return undefined;
}

/** The files of a new rule. `registry` is the text of server/rules/registry.ts. */
export function ruleFiles(code: string, registry: string): RuleFile[] {
  return [
    { path: `server/rules/${code}.ts`, text: ruleText(code) },
    { path: `tests/rules/${code}.torquil`, text: fixtureText(code) },
    { path: "server/rules/registry.ts", text: withEntry(registry, code) },
  ];
}

/** `bolt-too-long` → `boltTooLong`. */
export function constantOf(code: string): string {
  return code.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());
}

/** The codes that the registry knows, by the files it imports. */
export function codesIn(registry: string): string[] {
  return importsOf(registry).map((i) => i.code);
}

const IMPORT = /^import \{ ([\w, ]+) \} from "\.\/([a-z-]+)";$/gm;

function importsOf(registry: string): { code: string; line: string; names: string[] }[] {
  return [...registry.matchAll(IMPORT)].map(([line, names = "", code = ""]) => ({
    code,
    line,
    names: names.split(", "),
  }));
}

/** The registry with one rule more: imports and entries stay in the order of the codes. */
function withEntry(registry: string, code: string): string {
  const name = constantOf(code);
  const before = importsOf(registry)
    .filter((i) => i.code < code)
    .at(-1);
  const line = `import { ${name} } from "./${code}";\n`;
  if (!before) {
    return registry
      .replace(/^import /m, `${line}import `)
      .replace(/(RULES: readonly Rule\[\] = \[\n)/, `$1  ${name},\n`);
  }
  const entry = `  ${before.names.at(-1)},\n`;
  return registry
    .replace(`${before.line}\n`, `${before.line}\n${line}`)
    .replace(entry, `${entry}  ${name},\n`);
}

function ruleText(code: string): string {
  return `/** FILL IN: what this rule finds, in one sentence. */
import { actsOf } from "./look";
import { twins } from "./say";
import type { ProcedureRule } from "./types";

export const ${constantOf(code)}: ProcedureRule = {
  code: "${code}",
  // error: it cannot be right. warning: a maker would have to explain it. hint: worth a look.
  severity: "hint",
  group: "fasteners",
  // line, block, thing, procedure, file or project: the least that the rule has to look at. See types.ts.
  grain: "procedure",
  messages: {
    main: "FILL IN: what is wrong with “{name}”, in the words of the workshop.",
    hint: "FILL IN: what to write instead.",
  },
  docs: {
    what: "FILL IN: what the rule finds.",
    why: "FILL IN: what goes wrong at the machine.",
    // A whole file that shows the fault; the line that makes it; the same line repaired.
    ...twins(
      \`torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure wash "Wash the drum" {
  on winch
  step "Wash" {
    clean drum
  }
}
\`,
      "    clean drum\\n",
      "    wait 5 min\\n",
    ),
  },
  check(procedure, report) {
    for (const { act, head } of actsOf(procedure)) {
      // FILL IN: when is it wrong? Until then nothing is found.
      const wrong = false;
      if (wrong) report({ place: head, args: { name: act.what[0]?.name ?? "" } });
    }
  },
};
`;
}

function fixtureText(code: string): string {
  return `//// FILL IN: a case that shows the fault; put an annotation under the line
torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure wash "Wash the drum" {
  on winch
  step "Wash" {
    clean drum
    // hint: ${code} as "FILL IN: a part of the message"
  }
}

//// FILL IN: the same without the fault; a section without annotations must be clean of every rule
torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure wash "Wash the drum" {
  on winch
  step "Wash" {
    clean drum
  }
}
`;
}
