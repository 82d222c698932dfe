/**
 * The acts: what a fitter does.
 */
import type { Construct, Context } from "./types";

const ANY_ACT = ["with", "by-people", "watched-by", "never", "within-time", "holding"];
const ACTS: readonly Context[] = ["acts", "check"];

const act = (
  id: string,
  form: string,
  about: string,
  clauses: readonly string[] = [],
  more: Partial<Construct> = {},
): Construct => ({
  id,
  form,
  clauses: [...clauses, ...ANY_ACT.filter((c) => !clauses.includes(c))],
  block: "never",
  within: ACTS,
  act: true,
  about,
  ...more,
});

export const ACT_CONSTRUCTS: readonly Construct[] = [
  act("remove", "remove what:NAMES(part|fastener|belt|line)", "Takes off.", [
    "keep",
    "discard",
    "order",
    "from-ends",
    "crosswise",
  ]),
  act("fit", "fit [< new | old >] what:NAMES(part|fastener|belt|line)", "Puts on.", [
    "by-hand",
    "loosely",
    "own-place",
    "way-round",
  ]),
  act(
    "loosen",
    "loosen what:NAMES(fastener|part) [by angle:QUANTITY(angle)]",
    "Slackens without taking out.",
    ["order", "from-ends", "crosswise"],
  ),
  act(
    "tighten",
    "tighten what:NAMES(fastener|part)",
    "Tightens, to a stage or to the end.",
    ["to-stage", "while-turning", "crosswise", "from-middle", "order", "on-wheels"],
    {
      block: "may",
      holds: "tightening",
    },
  ),
  act("support", "support what:NAMES(part|machine)", "Takes the weight of a part."),
  act("release", "release what:NAMES(part|machine)", "Takes the support away again."),
  act("raise", "raise what:NAMES(part|machine)", "Lifts."),
  act("lower", "lower what:NAMES(part|machine)", "Lets down."),
  act("connect", "connect what:NAMES(line)", "Connects."),
  act("disconnect", "disconnect what:NAMES(line)", "Disconnects.", ["keep", "discard"]),
  act("open", "open what:NAMES(line|part)", "Opens a tap, a cover, a circuit."),
  act("close", "close what:NAMES(line|part)", "Closes it again."),
  act("isolate", "isolate what:NAMES(line|part)", "Cuts off and secures against switching on."),
  act("restore", "restore what:NAMES(line|part)", "Puts back what was isolated."),
  act("drain", "drain what:NAMES(fluid) [amount:QUANTITY(volume|mass)]", "Lets a fluid out.", [
    "keep",
    "discard",
  ]),
  act("fill", "fill what:NAMES(fluid) [amount:QUANTITY(volume|mass)]", "Fills a fluid in."),
  act("bleed", "bleed what:NAMES(line|part|fluid) until sign:TEXT", "Lets air out until a sign is seen.", [
    "at-most-time",
  ]),
  act("clean", "clean what:NAMES(part|fastener|face|line|belt)", "Cleans."),
  act("lubricate", "lubricate what:NAMES(part|fastener|line)", "Oils or greases."),
  act("seal", "seal what:NAMES(part|face|fastener)", "Puts sealant on."),
  act(
    "lay-on",
    "lay-on belt:NAME(belt) [direction:(clockwise|anticlockwise)] parts:NAMES(part)",
    "Lays a belt round its pulleys in the order of the hands.",
  ),
  act("run", "run what:NAME(line) through clips:NAMES(clip|part)", "Leads a line through its clips."),
  act("align", "align marks:NAMES(mark)", "Turns shafts until marks stand in line."),
  act(
    "turn",
    "turn shaft:NAME(shaft|part) < amount:QUANTITY(angle) | until sign:TEXT > [direction:(clockwise|anticlockwise)]",
    "Turns a shaft.",
  ),
  act("insert", "insert what:NAMES(temporary)", "Puts a temporary in."),
  act("pull", "pull what:NAMES(temporary)", "Takes a temporary out."),
  act("label", "label what:NAMES(part|line|fastener) [text:TEXT]", "Marks a thing so that it is told apart."),
  act(
    "wait",
    "wait < time:QUANTITY(time) [after event:NAME(step|check)] | until < thing:NAME(fluid|part|line) < below | above > level:QUANTITY(temperature|pressure|voltage) | sign:TEXT > >",
    "Waits for a time or a state.",
    ["at-most-time"],
  ),
  act("start", "start what:NAMES(machine|part)", "Sets a machine running.", ["without"]),
  act("stop", "stop what:NAMES(machine|part)", "Stops it."),
  act("run-in", "run-in what:NAMES(machine|part) time:QUANTITY(time)", "Lets it run for a time.", [
    "without",
  ]),
  act(
    "adjust",
    "adjust what:NAMES(part|fastener|belt|line) [to value:QUANTITY]",
    "Sets, until the limits are met where it stands in a check.",
    ["at-most-time"],
  ),
  act(
    "prove",
    "prove tester:NAME(tool) on source:TEXT",
    "Shows that a tester works, on something known to be live.",
  ),
  act("press", "press what:NAMES(part) < out | in >", "Presses a part out or in."),
  act("grind", "grind what:NAMES(part|face)", "Grinds."),
  act("drill", "drill what:NAMES(part|fastener)", "Drills."),
  act("chisel", "chisel what:NAMES(part|fastener)", "Chisels."),
  act("scrape", "scrape what:NAMES(part|face)", "Scrapes clean."),
  act("blow-out", "blow-out what:NAMES(part|line)", "Blows out with compressed air."),
  act("charge", "charge what:NAMES(part|line)", "Charges a battery."),
  act(
    "throw-away",
    "throw-away what:NAMES(part|fastener|belt|line|consumable|fluid)",
    "Discards what is already off.",
  ),
  act("put-by", "put-by what:NAMES(part|fastener|belt|line)", "Keeps what is already off."),
];
