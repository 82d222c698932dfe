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
  /** It may be given more than once. */
  readonly many?: true;
}

/** What a command is and takes. */
export interface Usage {
  /** `check [paths…]` */
  readonly form: string;
  /** A few sentences. */
  readonly about: string;
  readonly options: Readonly<Record<string, Option>>;
  /** What stands below the options: the exit codes. */
  readonly more?: string;
  /** Whole command lines, each with what it does. */
  readonly examples?: readonly (readonly [line: string, about: string])[];
}

export interface Given {
  readonly paths: readonly string[];
  readonly has: (option: string) => boolean;
  /** The value of an option; of one that is given more than once, the last. */
  readonly value: (option: string) => string | undefined;
  /** Every value of an option, in the order they were given. */
  readonly values: (option: string) => readonly string[];
}

/** Names longer than this have their explanation on the next line. */
const WIDEST_NAME = 34;

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
  const values = new Map<string, string[]>();
  const paths: string[] = [];
  for (const token of tokens) {
    if (token.kind === "positional") paths.push(token.value);
    if (token.kind !== "option") continue;
    const written = token.rawName === "-h" ? "--help" : token.rawName;
    const wrong = optionProblem(written, token.value, token.inlineValue, known);
    if (wrong) return { wrong };
    const name = written.slice(2);
    const before = values.get(name) ?? [];
    if (before.length > 0 && known[name]?.value && !known[name]?.many && before[0] !== token.value)
      return { wrong: `The option --${name} is given twice, as ${before[0]} and ${token.value}. Keep one.` };
    values.set(name, [...before, token.value ?? ""]);
  }
  return {
    given: {
      paths,
      has: (option) => values.has(option),
      value: (option) => values.get(option)?.at(-1),
      values: (option) => values.get(option) ?? [],
    },
  };
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

/** The help of a command: form, purpose, options, exit codes, examples. */
export function helpText({ form, about, options, more, examples = [] }: Usage): string {
  const rows = Object.entries({ ...options, help: HELP }).map(
    ([name, { value, choices, about }]) =>
      [`--${name}${value ? ` ${choices?.join("|") ?? value}` : ""}`, about] as const,
  );
  const parts = [
    `torquil ${form}`,
    about,
    `Options:\n${columns(rows)}`,
    ...(more ? [more] : []),
    ...(examples.length > 0 ? [`Examples:\n${columns(examples)}`] : []),
  ];
  return `${parts.join("\n\n")}\n`;
}

/** Rows of two columns, set in; where the first is long, the second stands below it. */
function columns(rows: readonly (readonly [string, string])[]): string {
  const wide = Math.min(WIDEST_NAME, Math.max(...rows.map(([name]) => name.length)));
  const below = `\n${" ".repeat(wide + 4)}`;
  return rows
    .map(([name, about]) => {
      const text = about.replace(/\n/g, below);
      return name.length > wide ? `  ${name}${below}${text}` : `  ${name.padEnd(wide)}  ${text}`;
    })
    .join("\n");
}
