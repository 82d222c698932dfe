/**
 * Constructs of a file and of a machine: what the machine is.
 */
import type { Construct, Context } from "./types";

const LINE_CLAUSES = ["behind", "contains", "weight", "high-voltage", "stores-charge", "battery", "pressurised", "hot", "fuel", "harmful", "like", "from-to", "through", "bend-radius", "length", "slack", "only-on", "for-each", "renew"];

const line = (id: string, about: string): Construct => ({
  id,
  form: `${id} name:NAME title:TEXT`,
  clauses: LINE_CLAUSES,
  block: "may",
  holds: "line",
  within: ["machine"],
  declares: "line",
  about,
});

const belt = (id: string, about: string): Construct => ({
  id,
  form: `${id} name:NAME title:TEXT`,
  clauses: ["toothed", "ribbed", "vee", "flat", "behind", "way-round", "pitch", "teeth", "length", "thickness", "path", "pulley", "weight", "renew", "only-on"],
  block: "may",
  holds: "belt",
  within: ["machine"],
  declares: "belt",
  about,
});

const one = (id: string, form: string, within: readonly Context[], about: string, more: Partial<Construct> = {}): Construct => ({
  id,
  form,
  clauses: [],
  block: "never",
  within,
  about,
  ...more,
});

export const MACHINE_CONSTRUCTS: readonly Construct[] = [
  one("torquil", "torquil version:COUNT", ["file"], "The version of the language; the first line."),
  one("use", "use path:TEXT", ["file"], "Another file whose names are known here; the path is relative to this file."),
  one("allow", "allow code:NAME reason:TEXT", [], "Allows one finding on the next line, with the reason."),
  one("machine", "machine name:NAME title:TEXT", ["file"], "A machine: what it is made of.", { block: "must", holds: "machine", declares: "machine" }),
  one("view", "view name:NAME from:TEXT", ["machine"], "Where left, right and clockwise are seen from; x to the right, y up.", { declares: "view" }),
  one("fluid", "fluid name:NAME title:TEXT [capacity:QUANTITY(volume|mass)]", ["machine"], "A fluid, and how much the machine holds.", {
    clauses: ["hot", "pressurised", "fuel", "harmful", "grade", "dispose", "behind", "only-on"], block: "may", holds: "fluid", declares: "fluid",
  }),
  one("consumable", "consumable name:NAME title:TEXT", ["machine", "procedure"], "A supply that is used up: oil, sealant, cleaner.", {
    clauses: ["grade", "open-time", "cure", "harmful", "fuel", "dispose"], block: "may", holds: "consumable", declares: "consumable",
  }),
  line("cable", "An electric cable or lead."),
  line("wire", "A wire."),
  line("hose", "A hose."),
  line("pipe", "A pipe that is disconnected rather than taken off."),
  line("connector", "A plug or connector."),
  line("tap", "A tap, valve or drain."),
  line("circuit", "A circuit that can be isolated."),
  one("part", "part name:NAME title:TEXT", ["machine"], "A part that can come off.", {
    clauses: ["behind", "weight", "contains", "carries", "spring-loaded", "way-round", "holds-own-place", "handed", "like", "for-each", "only-on", "face", "hot", "pressurised", "high-voltage", "stores-charge", "battery", "renew", "count"], block: "may", holds: "part", declares: "part",
  }),
  one("gear", "gear name:NAME title:TEXT", ["machine"], "A gear: a part with teeth on a shaft.", {
    clauses: ["behind", "teeth", "on-shaft", "meshes", "weight", "only-on", "renew"], block: "may", holds: "part", declares: "part",
  }),
  one("clip", "clip name:NAME title:TEXT", ["machine"], "A clip that a line runs through.", {
    clauses: ["centre", "behind", "only-on"], block: "may", holds: "part", declares: "clip",
  }),
  one("fastener", "fastener name:NAME title:TEXT", ["machine"], "A bolt, nut or screw, or a group of equal ones.", {
    clauses: ["secures", "behind", "thread", "left-hand", "class", "count", "layout", "holes", "hole", "order", "crosswise", "from-middle", "dry", "oiled", "locked", "as-supplied", "setting", "threads-into", "locked-by", "spanner", "grip", "stage", "tighten-to", "renew", "reuse", "for-each", "only-on", "like"],
    block: "may", holds: "fastener", declares: "fastener",
  }),
  one("shaft", "shaft name:NAME title:TEXT", ["machine"], "A shaft that turns.", {
    clauses: ["turns", "belt-off", "ratio", "behind", "only-on"], block: "may", holds: "shaft", declares: "shaft",
  }),
  belt("belt", "A belt and the pulleys it runs round."),
  belt("chain", "A chain and the sprockets it runs round."),
  one("mark", "mark name:NAME title:TEXT", ["machine"], "A mark that can be lined up.", { clauses: ["on-shaft", "at-angle", "behind", "only-on"], block: "may", holds: "shaft", declares: "mark" }),
  one("set", "set name:NAME title:TEXT of members:NAMES", ["machine", "procedure"], "Several of a kind: each wheel, each cylinder.", { declares: "set" }),
  one("variant", "variant name:NAME title:TEXT", ["machine"], "A version of the machine.", { clauses: ["serial"], declares: "variant" }),
  one("hazard", "hazard name:NAME title:TEXT", ["machine"], "A hazard of this machine or house, beside the usual ones.", {
    clauses: ["raised-by", "least"], block: "must", holds: "hazard", declares: "hazard",
  }),
];
