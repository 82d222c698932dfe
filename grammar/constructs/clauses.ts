/**
 * Clauses: the facts that several constructs share. Each stands on the construct's line, or alone in its block.
 */
import type { Clause } from "./types";

const clause = (id: string, form: string, about: string, follow: readonly string[] = []): Clause => ({
  id,
  form,
  follow,
  about,
});

export const CLAUSES: readonly Clause[] = [
  // How an act is done
  clause("with", "with tools:NAMES(tool|consumable|fluid|temporary)", "The tools or supplies an act uses."),
  clause(
    "holding",
    "holding part:NAME(part|shaft|belt|fastener) [with tools:NAMES(tool|temporary)]",
    "A part held against turning.",
  ),
  clause("while-turning", "while turning part:NAME(part|shaft)", "The part that is kept turning meanwhile."),
  clause("by-hand", "by hand", "Fitted by hand only; to be tightened later."),
  clause("loosely", "loosely", "Set in place, not pressed home."),
  clause("by-people", "by people:COUNT people", "How many people the act needs."),
  clause("never", "never tools:NAMES(tool)", "Tools that must not be used."),
  clause(
    "within-time",
    "within time:QUANTITY(time) of event:NAME(step|check|consumable)",
    "The longest time since a step, a check or an opened supply.",
  ),
  clause("watched-by", "watched by person:NAME(person)", "Who looks on, ready to stop it."),
  clause(
    "without",
    "without things:NAMES(part|belt|line)",
    "What is left off, or disconnected, on purpose while it runs.",
  ),
  clause("own-place", "in own place", "Each goes back where it came from."),
  clause("way-round", "way-round direction:NAME [mark:TEXT]", "Which way round it goes, and what shows it."),
  clause("keep", "keep", "Kept, to go back."),
  clause("discard", "discard", "Thrown away."),
  clause("crosswise", "crosswise", "From each fastener to the one opposite."),
  clause("from-middle", "from the middle out", "From the middle outwards, in a spiral."),
  clause("from-ends", "from the ends in", "From the outer ones inwards."),
  clause("order", "order holes:HOLES", "The order of the holes, as given."),
  clause("to-stage", "to stage:NAME(stage)", "Tightened as far as a stage."),
  clause("on-wheels", "on its wheels", "Done with the machine standing on its wheels."),
  clause("at-most-time", "at most time:QUANTITY(time)", "The longest that may take."),

  // What a thing is
  clause("behind", "behind things:NAMES(part|belt|line|fastener)", "What must come off before it."),
  clause("weight", "weight weight:QUANTITY(mass)", "How heavy it is."),
  clause("contains", "contains fluid:NAMES(fluid)", "The fluid in it."),
  clause("carries", "carries things:NAMES(part|belt|line|fastener)", "What comes off with it."),
  clause(
    "bears",
    "bears things:NAMES(part|machine)",
    "What rests on it and must be held before it comes off.",
  ),
  clause("spring-loaded", "spring-loaded", "It stores a spring's force."),
  clause("holds-own-place", "own-place", "Each of several goes back in its own place."),
  clause("handed", "handed", "Left differs from right."),
  clause("like", "like things:NAMES(part|line|fastener)", "What it could be mistaken for."),
  clause("for-each", "one for each set:NAME(set)", "One for each member of a set."),
  clause("only-on", "only on variants:NAMES(variant|option|bulletin)", "Only on these variants."),
  clause(
    "only-if",
    "only if check:NAME(check|symptom|bulletin|option|choice) [outcome:OUTCOME]",
    "Only when a check or condition turned out so.",
  ),
  clause("face", "face face:NAME title:TEXT", "A face that is sealed, cleaned or measured."),
  clause("renew", "renew < every time | when reason:TEXT >", "When it must be replaced by a new one."),
  clause(
    "reuse",
    "reuse < by length limit:QUANTITY(length) | at most times:COUNT times >",
    "When it may be used again.",
  ),

  // Fluids, supplies, lines
  clause("hot", "hot", "Hot in use."),
  clause("pressurised", "pressurised", "Under pressure in use."),
  clause("fuel", "fuel", "A fuel: it burns."),
  clause("harmful", "harmful", "Harmful to skin, eyes or lungs."),
  clause("grade", "grade grade:TEXT", "The grade or specification."),
  clause("dispose", "dispose how:TEXT", "How it is disposed of."),
  clause(
    "open-time",
    "open-time time:QUANTITY(time)",
    "How long it may stand open before the joint is closed.",
  ),
  clause("cure", "cure time:QUANTITY(time)", "How long it needs before it may be loaded."),
  clause("high-voltage", "high-voltage", "A dangerous voltage."),
  clause(
    "stores-charge",
    "stores-charge [time:QUANTITY(time)]",
    "It stays live after switching off, and how long.",
  ),
  clause("battery", "battery", "It belongs to a battery: gas and sparks."),
  clause("from-to", "from start:NAME(part|line) to end:NAME(part|line)", "Where a line starts and ends."),
  clause("through", "through clips:NAMES(part|clip)", "The clips it runs through, in order."),
  clause("bend-radius", "bend-radius limit:QUANTITY(length)", "The tightest bend it may make."),
  clause("slack", "slack length:QUANTITY(length)", "The slack it needs."),

  // Fasteners
  clause("secures", "secures things:NAMES(part|belt|line)", "What it holds."),
  clause("thread", "thread thread:THREAD", "The thread: metric or unified."),
  clause(
    "left-hand",
    "left-hand [on members:NAMES]",
    "A left-hand thread, on one side only where sides are named.",
  ),
  clause("class", "class class:GRADE", "The property class or grade."),
  clause("count", "count count:COUNT", "How many there are."),
  clause(
    "layout",
    "layout shape:(circle|grid|row) [holes holes:HOLES] [first at start:QUANTITY(angle)] [direction:(clockwise|anticlockwise)] [in rows:COUNT rows]",
    "How the holes lie and are numbered; on a circle from where and which way, in a grid in how many rows.",
  ),
  clause("holes", "holes holes:HOLES [length length:QUANTITY(length)]", "Which holes take which length."),
  clause("hole", "hole number:COUNT centre centre:POINT", "Where one hole lies."),
  clause("dry", "dry", "Thread and head are dry."),
  clause(
    "oiled",
    "oiled lubricant:NAME(consumable|fluid) [on thread [and under head]] [under head]",
    "Thread, head or both are oiled.",
  ),
  clause("locked", "locked locker:NAME(consumable)", "The thread is locked with a compound."),
  clause("as-supplied", "as supplied", "Used as it comes from the maker."),
  clause("setting", "setting", "It sets a position; it does not clamp."),
  clause(
    "threads-into",
    "threads-into material:(steel|iron|aluminium|plastic|insert|wood)",
    "What its thread goes into.",
  ),
  clause("locked-by", "locked-by things:NAMES(part|fastener)", "The pin or tab that locks it."),
  clause("spanner", "spanner size:QUANTITY(length)", "The width across flats."),
  clause("grip", "grip length:QUANTITY(length)", "The clamped length."),
  clause(
    "stage",
    "stage stage:NAME [ < value:QUANTITY(torque|angle) | back < angle:QUANTITY(angle) | to where:TEXT > | by feel reason:TEXT > ]",
    "A stage of tightening: torque, angle, back off, or by feel.",
    ["with", "holding", "while-turning", "crosswise", "from-middle", "order", "on-wheels", "only-on"],
  ),
  clause(
    "tighten-to",
    "tighten < value:QUANTITY(torque|angle) | by feel reason:TEXT >",
    "The tightening, in one stage.",
    ["crosswise", "from-middle", "order", "while-turning", "on-wheels", "only-on"],
  ),

  // Shafts, belts
  clause(
    "turns",
    "turns direction:(clockwise|anticlockwise|either) [only]",
    "The way a shaft turns or may be turned.",
  ),
  clause(
    "belt-off",
    "belt-off < free | range:QUANTITY(angle) >",
    "How far it may be turned with its belt off.",
  ),
  clause("ratio", "ratio ratio:NUMBER of shaft:NAME(shaft)", "Its turns for one turn of another shaft."),
  clause("toothed", "toothed", "A toothed belt."),
  clause("ribbed", "ribbed", "A ribbed belt."),
  clause("vee", "vee", "A V-belt."),
  clause("flat", "flat", "A flat belt."),
  clause("crossed", "crossed", "Its two strands cross, so that its two pulleys turn against each other."),
  clause("pitch", "pitch pitch:QUANTITY(length)", "Tooth to tooth."),
  clause("teeth", "teeth teeth:COUNT", "The number of teeth."),
  clause("length", "length length:QUANTITY(length)", "Its length."),
  clause("thickness", "thickness thickness:QUANTITY(length)", "Its thickness."),
  clause("path", "path path:(clockwise|anticlockwise)", "The order of the pulley lines as seen in the view."),
  clause("pulley", "pulley part:NAME(part)", "A pulley the belt runs round, in order.", [
    "teeth",
    "diameter",
    "centre",
    "on-shaft",
    "back-of-belt",
    "travel",
    "loaded",
  ]),
  clause("diameter", "diameter diameter:QUANTITY(length)", "A diameter."),
  clause("centre", "centre centre:POINT", "Where its centre lies in the view."),
  clause("on-shaft", "on shaft:NAME(shaft|part)", "The shaft it sits on."),
  clause("back-of-belt", "back of belt", "It touches the back of the belt."),
  clause("travel", "travel travel:QUANTITY(length)", "How far a tensioner moves."),
  clause("loaded", "loaded", "It takes or gives power."),
  clause("meshes", "meshes things:NAMES(part)", "The gear it runs with."),
  clause("at-angle", "at angle:QUANTITY(angle)", "The shaft's angle at the mark."),
  clause(
    "seen-at",
    "seen at angle:QUANTITY(angle)",
    "Where on the rim the mark is seen when it stands in line, from three o'clock, anticlockwise in the view.",
  ),

  // Hazards of the house
  clause(
    "raised-by",
    "raised-by act:NAME things:NAMES(machine|part|fastener|belt|line|fluid)",
    "The act on these things raises the hazard.",
  ),
  clause("least", "least word:(danger|warning|caution|notice)", "The weakest signal word that will do."),

  // Header
  clause("serial", "serial from:COUNT to to:COUNT", "A range of serial numbers."),
  clause("rating", "rating rating:QUANTITY", "The load it is rated for."),
  clause("or-tool", "or tool:NAME(tool)", "Another tool that will do."),
  clause(
    "in-line",
    "in-line extension:QUANTITY(length) wrench lever:QUANTITY(length)",
    "An adapter in line with a wrench of this lever length.",
  ),
  clause(
    "angled",
    "angled extension:QUANTITY(length) at angle:QUANTITY(angle) wrench lever:QUANTITY(length)",
    "An adapter at an angle to a wrench of this lever length.",
  ),
  clause("right-angle", "at right angle", "An adapter square to the wrench."),
  clause("impact", "impact", "An impact tool."),
  clause("proves-dead", "proves-dead", "It shows that nothing is live: to be proved before and after."),
  clause("into", "into thing:NAME(part|shaft|belt|line|fastener)", "What it goes into."),
  clause("over", "over thing:NAME(part|line)", "What it covers."),
  clause("ask-before", "ask before step:NAME(step|check)", "The step before which it must be asked."),

  // Checks
  clause(
    "at-temperature",
    "at temperature:QUANTITY(temperature)",
    "The temperature at which the limit holds.",
  ),
  clause("held", "held for time:QUANTITY(time)", "How long it must hold."),

  // Cautions
  clause("can", "can harm:TEXT", "What the hazard can do."),
  clause("so", "so avoid:TEXT", "What to do about it."),
];
