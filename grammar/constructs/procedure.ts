/**
 * Constructs of a procedure: its header, its sections and steps, its checks and conditions, its cautions.
 */
import type { Construct, Context } from "./types";

const one = (
  id: string,
  form: string,
  within: readonly Context[],
  about: string,
  more: Partial<Construct> = {},
): Construct => ({
  id,
  form,
  clauses: [],
  block: "never",
  within,
  about,
  ...more,
});

const state = (id: string, form: string, about: string): Construct => one(id, form, ["state"], about);

const caution = (id: string, about: string): Construct =>
  one(id, `${id} hazard:NAME`, ["procedure", "section", "acts", "check"], about, {
    block: "must",
    holds: "caution",
    clauses: ["can", "so"],
  });

const FLOW: readonly Context[] = ["procedure", "section", "acts", "check"];

export const PROCEDURE_CONSTRUCTS: readonly Construct[] = [
  one("procedure", "procedure name:NAME title:TEXT", ["file"], "A procedure: what is done, in order.", {
    block: "must",
    holds: "procedure",
    declares: "procedure",
  }),
  one("on", "on machine:NAME(machine)", ["procedure"], "The machine it is for.", {
    clauses: ["serial", "only-on"],
  }),
  one("document", "document number:TEXT", ["procedure"], "The document number."),
  one(
    "revision",
    "revision mark:NAME date:DATE reason:TEXT",
    ["procedure"],
    "A revision, newest first, with its date and reason.",
  ),
  one("status", "status status:(draft|released)", ["procedure"], "Whether it is a draft or released."),
  one("working-time", "working-time time:QUANTITY(time)", ["procedure"], "The time the job takes."),
  one("qualification", "qualification who:TEXT", ["procedure"], "Who may do it."),
  one("person", "person name:NAME title:TEXT", ["procedure"], "Somebody who takes part: worker, watcher.", {
    declares: "person",
  }),
  one("wear", "wear what:TEXT", ["procedure"], "Protective equipment."),
  one("kit", "kit number:TEXT", ["procedure"], "The kit and what is in it.", { block: "must", holds: "kit" }),
  one(
    "item",
    "item thing:NAME(part|fastener|belt|line|consumable) count:COUNT [number:TEXT]",
    ["kit"],
    "Something in the kit, under the name of what it replaces.",
    { clauses: ["only-if", "only-on"] },
  ),
  one(
    "tool",
    "tool name:NAME title:TEXT [range:QUANTITY]",
    ["procedure"],
    "A tool, with its range or size.",
    {
      clauses: ["rating", "or-tool", "in-line", "angled", "right-angle", "impact", "proves-dead"],
      block: "may",
      holds: "tool",
      declares: "tool",
    },
  ),
  one(
    "temporary",
    "temporary name:NAME title:TEXT",
    ["procedure"],
    "Something put in for the job that must come out again: a pin, a cap, a lock.",
    {
      clauses: ["into", "over", "on-shaft", "diameter", "count"],
      block: "may",
      holds: "temporary",
      declares: "temporary",
    },
  ),
  one("starts", "starts with", ["procedure"], "What is already so when the job begins.", {
    block: "must",
    holds: "state",
  }),
  one("ends", "ends with", ["procedure"], "What is left so when the job ends.", {
    block: "must",
    holds: "state",
  }),
  state("off", "off things:NAMES(part|fastener|belt)", "These are off."),
  state("loose", "loose things:NAMES(fastener)", "These are loose."),
  state("drained", "drained fluids:NAMES(fluid)", "These are drained."),
  state("disconnected", "disconnected things:NAMES(line)", "These are disconnected."),
  state("opened", "opened things:NAMES(line|part)", "These stand open."),
  state("isolated", "isolated things:NAMES(line|part)", "These are isolated."),
  state("supported", "supported things:NAMES(part|machine)", "These are supported."),
  state("inserted", "inserted things:NAMES(temporary)", "These temporaries are in."),
  state("running", "running things:NAMES(machine|part)", "These run."),
  one("symptom", "symptom name:NAME title:TEXT", ["procedure"], "Something the worker has noticed or not.", {
    clauses: ["ask-before"],
    declares: "symptom",
  }),
  one(
    "bulletin",
    "bulletin name:NAME title:TEXT [date:DATE]",
    ["procedure"],
    "A field change that some machines have had.",
    { clauses: ["serial"], declares: "bulletin" },
  ),
  one(
    "option",
    "option name:NAME title:TEXT",
    ["machine", "procedure"],
    "Equipment a machine may or may not have.",
    { declares: "option" },
  ),
  one(
    "one-of",
    "one-of name:NAME title:TEXT",
    ["machine", "procedure"],
    "A condition with several answers, one of which holds.",
    { block: "must", holds: "choices", declares: "one-of" },
  ),
  one("choice", "choice name:NAME title:TEXT", ["choices"], "One of the answers.", { declares: "choice" }),
  one("section", "section [name:NAME] title:TEXT", ["procedure"], "A section of the job.", {
    block: "must",
    holds: "section",
    declares: "section",
  }),
  one("step", "step [name:NAME] title:TEXT", ["section", "procedure"], "A step: acts done together.", {
    block: "must",
    holds: "acts",
    declares: "step",
  }),
  one(
    "check",
    "check [name:NAME] title:TEXT",
    ["section", "procedure"],
    "Something measured, seen or asked, and what follows.",
    { block: "must", holds: "check", declares: "check" },
  ),
  one("note", "note", FLOW, "A remark, set apart on the sheet.", { block: "must", holds: "note" }),
  one(
    "figure",
    "figure path:TEXT caption:TEXT",
    FLOW,
    "A picture, relative to this file, and what it shows.",
  ),
  one(
    "when",
    "when condition:NAME(symptom|bulletin|option|choice|variant|check) [outcome:OUTCOME]",
    FLOW,
    "Only when a condition holds, or a check turned out so.",
    { block: "must", holds: "same" },
  ),
  one("otherwise", "otherwise", FLOW, "What is done when the condition before does not hold.", {
    block: "must",
    holds: "same",
  }),
  one("for", "for each set:NAME(set) [one at a time]", FLOW, "Once for each member of a set.", {
    block: "must",
    holds: "same",
  }),
  one(
    "follow",
    "follow procedure:NAME(procedure) [from path:TEXT]",
    ["procedure", "section", "acts"],
    "Another procedure, done here as a whole.",
  ),
  one(
    "hand-back",
    "hand-back things:NAMES(part|fastener|belt|line|fluid|temporary)",
    ["acts"],
    "What another procedure left open is put right by its own rules.",
  ),

  // In a check
  one("limit", "limit [what:TEXT] value:QUANTITY", ["check"], "The limits of what is measured.", {
    clauses: ["with", "at-temperature", "held"],
  }),
  one("place", "place where:TEXT", ["check"], "A place at which it is measured; the worst counts."),
  one("marks", "marks marks:NAMES(mark)", ["check"], "Marks that must stand in line."),
  one("observe", "observe question:TEXT", ["check"], "A question answered yes or no."),
  one(
    "choose",
    "choose choice:NAME value:QUANTITY [title:TEXT]",
    ["check"],
    "One of several, by the value measured.",
    { clauses: ["with"] },
  ),
  one("record", "record [what:TEXT]", ["check"], "The value is written down."),
  one(
    "proves",
    "proves things:NAMES(part|fastener|belt|line|tool)",
    ["check"],
    "What a passed check proves right.",
  ),
  one("if", "if [still] outcome:OUTCOME", ["check"], "What is done when the check turned out so.", {
    block: "must",
    holds: "acts",
  }),
  one("go-on", "go on", ["acts"], "On to what comes next."),
  one("go-to", "go to target:NAME(step|check|section)", ["acts"], "On to a later step or check."),
  one(
    "check-again",
    "check again [at most times:COUNT < time | times >]",
    ["acts"],
    "The same check once more.",
  ),
  one(
    "repeat",
    "repeat from target:NAME(step|check|section) [at most times:COUNT < time | times >]",
    ["acts"],
    "Back to an earlier step or check.",
  ),
  one("end-job", "end job reason:TEXT", ["acts"], "The job ends here, unfinished."),

  caution("danger", "Will kill or maim if not avoided."),
  caution("warning", "Could kill or maim if not avoided."),
  caution("caution", "Could hurt if not avoided."),
  caution("notice", "Could damage the machine if not heeded."),
];
