/**
 * Arguments of a command, and its help: both from one table of its options.
 */
import { parseArgs } from "node:util";
import { nearest } from "../../grammar";

/** An option of a command. `value` names what follows it; without, it is a switch. */
export interface Option {
  readonly about: string;
  readonly value?: string;
  /** The only values it takes. */
  readonly choices?: readonly string[];
}

/** What a command is and takes. */
export interface Usage {
  /** `check [paths…]` */
  readonly form: string;
  /** A few sentences. */
  readonly about: string;
  readonly options: Readonly<Record<string, Option>>;
  /** What stands below the options. */
  readonly more?: string;
}

export interface Given {
  readonly paths: readonly string[];
  readonly has: (option: string) => boolean;
  readonly value: (option: string) => string | undefined;
}

const HELP: Option = { about: "Show this help." };

/** Reads arguments by a table of options; `wrong` is a sentence about the first that cannot be taken. */
export function readArguments(
  args: readonly string[],
  usage: Usage,
): { readonly given: Given } | { readonly wrong: string } {
  const known: Readonly<Record<string, Option>> = { ...usage.options, help: HELP };
  const options = Object.fromEntries(
    Object.entries(known).map(([name, { value }]) => [name, { type: value ? "string" : "boolean" } as const]),
  );
  const { tokens } = parseArgs({
    args: [...args],
    options,
    allowPositionals: true,
    strict: false,
    tokens: true,
  });
  const values = new Map<string, string>();
  const paths: string[] = [];
  for (const token of tokens) {
    if (token.kind === "positional") paths.push(token.value);
    if (token.kind !== "option") continue;
    const wrong = optionProblem(token.rawName, token.value, token.inlineValue, known);
    if (wrong) return { wrong };
    values.set(token.name, token.value ?? "");
  }
  return { given: { paths, has: (option) => values.has(option), value: (option) => values.get(option) } };
}

function optionProblem(
  written: string,
  value: string | undefined,
  inline: boolean | undefined,
  known: Readonly<Record<string, Option>>,
): string | undefined {
  const option =
    written.startsWith("--") && Object.hasOwn(known, written.slice(2)) ? known[written.slice(2)] : undefined;
  if (!option) {
    const near = nearest(written.replace(/^-+/, ""), Object.keys(known));
    return `There is no option ${written}.${near ? ` Did you mean --${near}?` : ""}`;
  }
  if (!option.value) return value === undefined ? undefined : `The option ${written} takes no value.`;
  if (value === undefined || value === "" || (!inline && value.startsWith("-") && value.length > 1))
    return `The option ${written} needs a value: ${written} ${option.value}.`;
  if (!option.choices || option.choices.includes(value)) return undefined;
  const near = nearest(value, option.choices);
  const way = near ? `Did you mean ${near}?` : `It takes ${option.choices.join(", ")}.`;
  return `The option ${written} does not take "${value}". ${way}`;
}

/** The help of a command. */
export function helpText(usage: Usage): string {
  const rows = Object.entries({ ...usage.options, help: HELP }).map(
    ([name, { value, choices, about }]) =>
      [`--${name}${value ? ` ${choices?.join("|") ?? value}` : ""}`, about] as const,
  );
  const wide = Math.max(...rows.map(([name]) => name.length));
  const options = rows.map(([name, about]) => `  ${name.padEnd(wide)}  ${about}`).join("\n");
  return `torquil ${usage.form}\n\n${usage.about}\n\nOptions:\n${options}\n${usage.more ? `\n${usage.more}\n` : ""}`;
}
