/**
 * Allowances: `allow CODE "reason"` takes one code away from the next line. One that allows nothing, or a code that
 * does not exist, is itself reported.
 */
import { type Line, phraseOf, formSlots } from "../../grammar";
import type { FileModel } from "../model";
import { RULES } from "./registry";
import type { Finding, Severity } from "./types";

export const ALLOWANCE_MESSAGES: Readonly<Record<string, string>> = {
  "allows-nothing": "This allowance allows nothing: the next line has no finding {code}.",
  "allows-nothing-hint": "Take the line out.",
  "allows-unknown": "There is no code {code}.",
  "allows-unknown-near": "There is no code {code}. Did you mean {near}?",
};

interface Allowance {
  /** The line it stands on; it covers the next line that is not itself an allowance. */
  readonly line: number;
  readonly covers: number;
  /** `null` where the line is broken and may have allowed anything. */
  readonly code: string | null;
  readonly start: number;
  readonly end: number;
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
    found.push({ line: at, covers, code, start: line.indent, end: line.text.trimEnd().length });
  });
  return found;
}

/** The code an allowance line names; `null` for a broken line that may have been one; undefined for other lines. */
function codeOf(line: Line): string | null | undefined {
  if (line.kind === "broken") return line.head === "allow" || (line.head === "" && line.perhaps.some((p) => CODES.has(p.name))) ? null : undefined;
  if (line.head !== "allow" || !line.statement) return undefined;
  const slot = formSlots(line.statement).find((s) => s.role === "code") ?? phraseOf(line.statement, "allow")?.slots[0];
  return slot?.content.kind === "names" ? (slot.content.names[0]?.name ?? "") : "";
}

const CODES: ReadonlySet<string> = new Set(RULES.flatMap((r) => [r.code, ...(r.alsoCodes ?? [])]));

/** Takes allowed findings away and reports allowances that allow nothing. */
export function applyAllowances(file: FileModel, allowances: readonly Allowance[], findings: readonly Finding[], severityOf: (code: string) => Severity | "off" | undefined): Finding[] {
  if (allowances.length === 0) return [...findings];
  const used = new Set<Allowance>();
  const left = findings.filter((finding) => {
    const by = allowances.find((a) => a.covers === finding.place.line && (a.code === null || a.code === finding.code));
    if (by) used.add(by);
    return !by;
  });
  // A procedure that is not followed has fewer findings than it would have: an allowance there proves nothing.
  const doubtful = file.mayDeclareMore || file.procedures.some((p) => p.doubtful) || file.document.lines.some((l) => l.kind === "broken");
  for (const a of allowances) {
    if (used.has(a) || a.code === null) continue;
    const unknown = !CODES.has(a.code);
    if (doubtful && !unknown) continue;
    const code = unknown ? "allows-unknown" : "allows-nothing";
    const severity = severityOf(code) ?? "warning";
    if (severity === "off") continue;
    const place = { file: file.path, line: a.line, start: a.start, end: a.end };
    left.push({
      code, severity, message: { id: code, args: { code: a.code } }, hint: unknown ? null : { id: "allows-nothing-hint", args: {} }, place, related: [], way: [],
      fixes: [], fingerprint: `${code}-${a.code}-${file.document.lines[a.covers]?.text.trim() ?? ""}`,
    });
  }
  return left;
}
