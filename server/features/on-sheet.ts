/**
 * What the sheet of a procedure prints of a fastener and of a check, in the sheet's own words: said beside the source
 * before anything is printed.
 */
import { checkOf, type Entry, namesIn, textIn, timesOf } from "../facts";
import { jobOf, numbersByLine, type Procedure, type Project, type Thing } from "../model";
import { hoverPhrase as say } from "../phrases/hover";
import { type Language, say as sheetWord } from "../phrases/sheet";
import type { SheetOptions } from "../sheet/build-context";
import { NO_DRAWINGS } from "../sheet/build-context";
import { tighteningTable } from "../sheet/build-tightening";
import { usesOf } from "../sheet/build-uses";
import { textOf } from "../sheet/fill";
import type { Dual, Stage } from "../sheet/inline";

/** In which language and units the sheet is printed. */
export type SheetLook = Pick<SheetOptions, "language" | "units">;

export const USUAL_LOOK: SheetLook = { language: "en", units: "both" };

/** A fastener's row of the tightening table, a sentence each; none where the procedure does not tighten it. */
export function fastenerOnSheet(
  project: Project,
  procedure: Procedure,
  fastener: Thing,
  look: SheetLook,
): readonly string[] {
  const job = jobOf(project, procedure);
  const uses = usesOf(job);
  // Rows of others need not be made.
  const own = uses.all.filter(({ what }) => what.some((thing) => thing.name === fastener.name));
  const build = {
    ...look,
    paper: "a4" as const,
    draft: false,
    pictures: () => undefined,
    project,
    job,
    uses: { ...uses, all: own },
    drawings: NO_DRAWINGS,
  };
  // The row's id is its name, which is taken once in a procedure's sight.
  const row = tighteningTable(build).rows.find((one) => one.id === `tightening:${fastener.name}`);
  if (!row) return [];
  const { language } = look;
  const word = (id: Parameters<typeof sheetWord>[1]): string => sheetWord(language, id);
  const lines = [
    [row.thread ? `${row.count} × ${row.thread}` : `${word("column.count")} ${row.count}`],
    row.state ? [`${word("column.state")}: ${textOf(row.state)}`] : [],
    row.leftHand ? [word("left-hand-long")] : [],
    row.stages.map((stage) => stageOnSheet(language, stage)),
    row.order ? [sheetWord(language, "order", { order: textOf(row.order) })] : [],
    row.renew === "always" ? [word("renew-always")] : row.renew ? [textOf(row.renew)] : [],
  ].flatMap((texts) => texts.map(ended));
  const steps = row.at.map((ref) => ref.number).join(", ");
  return [say("on-sheet", { steps }), ...lines].map(unbound);
}

function stageOnSheet(language: Language, { name, value, setting }: Stage): string {
  const set = setting ? `, ${sheetWord(language, "setting", { value: dualText(setting) })}` : "";
  const lead = name ? `${name}:` : sheetWord(language, "column.value");
  return `${lead} ${dualText(value)}${set}`;
}

const dualText = ({ value, other }: Dual): string => (other ? `${value} (${other})` : value);
const ended = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);
const unbound = (text: string): string => text.replace(/\u00a0/g, " ");

/** Where each outcome of a check leads, by the numbers on the sheet. */
export function outcomesSaid(procedure: Procedure, check: Thing): readonly string[] {
  const numbers = numbersByLine(procedure);
  return checkOf(check.entry).outcomes.map(({ outcome, still, entry }) => {
    const said = still ? say("outcome.still", { outcome }) : outcome;
    return say("outcome", { outcome: said, leads: leadsTo(procedure, numbers, entry) });
  });
}

const LEADING: ReadonlySet<string> = new Set(["go-on", "go-to", "check-again", "repeat", "end-job"]);

function leadsTo(procedure: Procedure, numbers: ReadonlyMap<number, number>, outcome: Entry): string {
  const acts = outcome.children.filter((c) => !LEADING.has(c.entry.construct)).length;
  const lead = outcome.children.find((c) => LEADING.has(c.entry.construct))?.entry;
  const before = acts > 0 ? say("leads.after") : "";
  switch (lead?.construct) {
    case "go-to":
    case "repeat": {
      const name = namesIn(lead.form, "target")[0]?.name ?? "";
      const target = procedure.find(name, ["step", "check", "section"]);
      const number = target && numbers.get(target.line);
      const title = target?.title || name;
      const where =
        number === undefined
          ? say("leads.titled", { title })
          : say("leads.step", { number: String(number), title });
      return before + say(`leads.${lead.construct}`, { where }) + timesSaid(lead);
    }
    case "check-again":
      return before + say("leads.again") + timesSaid(lead);
    case "end-job":
      return before + say("leads.end", { reason: textIn(lead.form, "reason").replace(/\.$/, "") });
    default:
      return before + say("leads.on");
  }
}

function timesSaid(lead: Entry): string {
  const times = timesOf(lead);
  if (times === 1) return say("leads.once");
  return times === null ? "" : say("leads.times", { times: String(times) });
}
