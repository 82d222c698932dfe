/**
 * Allowances: `allow CODE "reason"` takes one code away from the next line. One that allows nothing, or a code that
 * does not exist, is itself reported.
 */
import { formSlots, type Line, nearest, type SlotValue, type Span } from "../../grammar";
import type { FileModel } from "../model";
import { RULES } from "./registry";
import type { Args, Finding, Message, Page, Severity } from "./types";

const MACHINE = `torquil 1

machine winch "Hand winch" {
  ALLOW
  fastener cover-bolts "Cover bolts"  tighten 22
}
`;

/** The catalogue's pages on allowances; there is no rule behind them, since the engine itself finds these. */
export const ALLOWANCE_PAGES: readonly Page[] = [
  {
    code: "allows-nothing",
    severity: "warning",
    group: "names and shape",
    messages: {
      main: "This allowance allows nothing: the next line has no finding {code}.",
      hint: "Take the line out.",
      fix: "Take the allowance out",
    },
    docs: {
      what: "An `allow` line stands before a line that has no such finding.",
      why: "An allowance left behind hides the next fault on that line, and a reader takes its reason for true.",
      example: MACHINE.replace("ALLOW", 'allow bare-number "The drawing gives no unit."').replace(
        "22",
        "22 N·m",
      ),
      instead: MACHINE.replace("ALLOW", 'allow bare-number "The drawing gives no unit."'),
    },
  },
  {
    code: "allows-unknown",
    severity: "warning",
    group: "names and shape",
    messages: {
      main: "There is no code “{code}”.",
      near: "There is no code “{code}”. Did you mean “{near}”?",
      fix: "Write {near}",
    },
    docs: {
      what: "An `allow` line names a code that does not exist.",
      why: "It allows nothing, and the finding it was written for is still there.",
      example: MACHINE.replace("ALLOW", 'allow bear-number "The drawing gives no unit."'),
      instead: MACHINE.replace("ALLOW", 'allow bare-number "The drawing gives no unit."'),
    },
  },
];

interface Allowance {
  /** The line it stands on; it covers the next line that is not itself an allowance. */
  readonly line: number;
  readonly covers: number;
  /** `null` where the line is broken and may have allowed anything. */
  readonly code: string | null;
  readonly codeAt: Span;
  readonly whole: Span;
}

/** The allowances of a file, by line. A broken line that begins like one counts for every code. */
export function allowancesOf(file: FileModel): readonly Allowance[] {
  const { lines } = file.document;
  const found: Allowance[] = [];
  lines.forEach((line, at) => {
    const code = codeOf(line);
    if (code === undefined) return;
    let covers = at + 1;
    while (covers < lines.length && codeOf(lines[covers] as Line) !== undefined) covers++;
    const whole = { start: line.indent, end: line.comment?.start ?? line.text.trimEnd().length };
    found.push({ line: at, covers, code, codeAt: codeSlot(line)?.span ?? whole, whole });
  });
  return found;
}

/** The code an allowance line names; `null` for a broken line that may have been one; undefined for other lines. */
function codeOf(line: Line): string | null | undefined {
  if (line.kind === "broken")
    return line.head === "allow" || (line.head === "" && line.perhaps.some((p) => CODES.has(p.name)))
      ? null
      : undefined;
  if (line.head !== "allow") return undefined;
  const slot = codeSlot(line);
  return slot?.content.kind === "names" ? (slot.content.names[0]?.name ?? "") : "";
}

function codeSlot(line: Line): SlotValue | undefined {
  return line.statement ? formSlots(line.statement).find((s) => s.role === "code") : undefined;
}

const CODES: ReadonlySet<string> = new Set(RULES.flatMap((r) => [r.code, ...(r.alsoCodes ?? [])]));

/** Takes allowed findings away and reports allowances that allow nothing. */
export function applyAllowances(
  file: FileModel,
  allowances: readonly Allowance[],
  findings: readonly Finding[],
  severityOf: (code: string) => Severity | "off" | undefined,
): Finding[] {
  if (allowances.length === 0) return [...findings];
  const used = new Set<Allowance>();
  const left = findings.filter((finding) => {
    const by = allowances.find(
      (a) => a.covers === finding.place.line && (a.code === null || a.code === finding.code),
    );
    if (by) used.add(by);
    return !by;
  });
  // A procedure that is not followed has fewer findings than it would have: an allowance there proves nothing.
  const doubtful =
    file.mayDeclareMore ||
    file.procedures.some((p) => p.doubtful) ||
    file.document.lines.some((l) => l.kind === "broken");
  for (const allowance of allowances) {
    const { code } = allowance;
    if (used.has(allowance) || code === null || severityOf(code) === "off") continue;
    const fault = CODES.has(code) ? (doubtful ? null : nothing(allowance, code)) : unknown(allowance, code);
    const severity = fault && (severityOf(fault.code) ?? "warning");
    if (!fault || !severity || severity === "off") continue;
    left.push(toFinding(file, allowance, fault, severity));
  }
  return left;
}

interface AllowanceFault {
  readonly code: string;
  readonly message: string;
  readonly args: Args;
  readonly hint: Message | null;
  readonly at: Span;
  readonly near: string;
}

function nothing({ whole }: Allowance, code: string): AllowanceFault {
  return {
    code: "allows-nothing",
    message: "main",
    args: { code },
    hint: { id: "hint", args: {} },
    at: whole,
    near: "",
  };
}

function unknown({ codeAt }: Allowance, code: string): AllowanceFault {
  const near = nearest(code, [...CODES].sort()) ?? "";
  const args = near ? { code, near } : { code };
  return { code: "allows-unknown", message: near ? "near" : "main", args, hint: null, at: codeAt, near };
}

function toFinding(
  file: FileModel,
  { line, covers }: Allowance,
  fault: AllowanceFault,
  severity: Severity,
): Finding {
  const { code, message, args, hint, at, near } = fault;
  const place = { file: file.path, line, start: at.start, end: at.end };
  const mends = near !== "" || code === "allows-nothing";
  const fixes = mends ? [{ title: { id: "fix", args }, safe: false, changes: [{ place, text: near }] }] : [];
  const fingerprint = `${code}-${args.code}-${file.document.lines[covers]?.text.trim() ?? ""}`;
  return {
    code,
    severity,
    message: { id: message, args },
    hint,
    place,
    related: [],
    way: [],
    fixes,
    fingerprint,
  };
}
