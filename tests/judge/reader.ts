/**
 * Reads a clean project line by line into the instructions of the plain enumeration. A small reader of the judge's own,
 * for texts in their usual form: it shares no code with the checker, and says where it cannot follow.
 */
import { ACTS } from "../../server/walk";
import type { Instruction, World } from "../walk/programs";
import { declare, type Machine, membersOf, namesAfter, partsOf, readMachine } from "./machine";
import { type Node, nodesOf, Unread } from "./nodes";

/** A procedure as the enumeration takes it. */
export interface Reading {
  readonly instructions: readonly Instruction[];
  readonly world: World;
}

/** Lines of a procedure that is followed count from here: they are none of the file's own. */
export const ELSEWHERE = 1_000_000;

const STATES: Readonly<Record<string, string>> = { opened: "open", inserted: "in" };

/** Reads the one procedure of a file; a word about what is not understood where it cannot. */
export function readProcedure(texts: Readonly<Record<string, string>>, main: string): Reading | string {
  try {
    const files = new Map(Object.entries(texts).map(([path, text]) => [path, nodesOf(text)]));
    const all = (path: string): Node[] =>
      (files.get(path) ?? []).filter(({ text }) => text.startsWith("procedure "));
    const [procedure, ...others] = all(main);
    if (!procedure || others.length > 0) return "not one procedure";
    const elsewhere = [...files.keys()].filter((path) => path !== main).flatMap(all);
    return new Reader(readMachine([...files.values()], procedure), procedure, elsewhere).read();
  } catch (error) {
    if (error instanceof Unread) return error.message;
    throw error;
  }
}

type Jump = Extract<Instruction, { does: "jump" }>;
type Test = Extract<Instruction, { does: "test" }>;

/** The check that is being read. */
interface Check {
  readonly name: string;
  readonly first: number;
  readonly on: Jump[];
  /** The counters of the returns in each of its outcomes. */
  readonly counters: Map<string, [number, number][]>;
  outcome: string;
}

class Reader {
  private readonly instructions: Instruction[] = [];
  private readonly labels = new Map<string, number>();
  private readonly forward: { jump: Jump; target: string }[] = [];
  private readonly checks: string[] = [];
  private readonly starts: Record<string, string[]> = {};
  private readonly ends: Record<string, string[]> = {};
  private readonly tested = new Set<string>();
  private counters = 0;
  /** The member of a set that is being done, and how far off the lines that are read stand. */
  private member: string | null = null;
  private off = 0;

  constructor(
    private readonly machine: Machine,
    private readonly procedure: Node,
    private readonly elsewhere: readonly Node[],
  ) {}

  read(): Reading {
    const { decided, locked } = this.machine;
    const visit = (node: Node): void => {
      for (const word of /^when ([\w-]+)/.exec(node.text)?.slice(1) ?? []) this.tested.add(word);
      for (const inside of node.inside) visit(inside);
    };
    for (const procedure of [this.procedure, ...this.elsewhere]) visit(procedure);
    this.readAll(this.procedure.inside, null);
    this.instructions.push({ does: "end" });
    this.keepCounters();
    for (const { jump, target } of this.forward) {
      const to = this.labels.get(target);
      if (to === undefined) throw new Unread(`no place ${target}`);
      jump.to = to;
    }
    const asked = new Set(this.instructions.flatMap((i) => (i.does === "test" ? [i.on] : [])));
    const used = Object.entries(decided).filter(([name]) => this.checks.includes(name) || asked.has(name));
    const { checks, starts, ends } = this;
    const pins = this.machine.pins.flatMap(([pin, into]) => (locked.has(into) ? [pin] : []));
    const world = {
      parts: partsOf(this.machine),
      decided: Object.fromEntries(used),
      checks,
      starts,
      ends,
      pins,
    };
    return { instructions: this.instructions, world };
  }

  private readAll(nodes: readonly Node[], check: Check | null): void {
    for (const [i, node] of nodes.entries()) {
      const after = nodes[i + 1];
      this.readNode(node, after?.text === "otherwise" ? after : null, check);
    }
  }

  private readNode(node: Node, otherwise: Node | null, check: Check | null): void {
    const [word = "", second = ""] = node.text.split(/\s+/);
    const name = /^\w/.test(second) ? second : "";
    if (word === "starts" || word === "ends")
      this.readStanding(node, word === "starts" ? this.starts : this.ends);
    else if (word === "section") this.readAll(node.inside, check);
    else if (word === "step") {
      if (name) this.labels.set(name, this.instructions.length);
      this.readAll(node.inside, null);
    } else if (word === "check" && second !== "again") this.readCheck(node, name || `check-${node.line}`);
    else if (word === "when") this.readWhen(node, otherwise, check);
    else if (word === "check" || word === "repeat" || word === "go" || word === "end")
      this.readWayOn(node, word, check);
    else if (word === "for") this.readForEach(node, second === "each" ? node.text : "", check);
    else if (word === "follow") this.follow(second);
    else if (ACTS[word]) this.readAct(node, word);
  }

  private readStanding({ inside }: Node, into: Record<string, string[]>): void {
    for (const { text } of inside) {
      const [word = ""] = text.split(/\s+/);
      for (const thing of namesAfter(text.replace(/ +/g, " "), word)) {
        const isOut = word === "off" && this.machine.parts[thing]?.fastener;
        into[thing] = [...(into[thing] ?? []), isOut ? "out" : (STATES[word] ?? word)];
        // What is off has no bolts in it.
        if (word !== "off" || isOut) continue;
        for (const [bolt, { secures }] of Object.entries(this.machine.parts))
          if (secures?.includes(thing)) into[bolt] = ["out"];
      }
    }
  }

  /** The whole once for each member, one after the other. */
  private readForEach(node: Node, text: string, check: Check | null): void {
    const members = this.machine.sets.get(/^for each ([\w-]+)/.exec(text)?.[1] ?? "");
    if (!members || this.member !== null) throw new Unread(node.text);
    for (const member of members) {
      this.member = member;
      this.readAll(node.inside, check);
    }
    this.member = null;
  }

  /** What the other procedure does, in its place; how it says that it begins and ends is for when it stands alone. */
  private follow(name: string): void {
    const other = this.elsewhere.find(({ text }) => text.startsWith(`procedure ${name} `));
    if (!other || this.off > 0) throw new Unread(`follow ${name}`);
    for (const node of other.inside) declare(this.machine, node);
    this.off = ELSEWHERE;
    this.readAll(
      other.inside.filter(({ text }) => !/^(?:starts|ends) with/.test(text)),
      null,
    );
    this.off = 0;
  }

  private readAct(node: Node, verb: string): void {
    const row = ACTS[verb] as (typeof ACTS)[string];
    const { makes, ends, fastener, reach, whole } = row;
    if (verb !== "throw-away" && !makes && !ends && !fastener && !reach && !whole) return;
    const text = node.text.replace(/ +/g, " ");
    if (/ holes? \d/.test(text)) throw new Unread("some of its holes");
    const said = /^[\w-]+ (?:(new|old) )?([\w-]+(?:, ?[\w-]+)*)/.exec(text);
    if (!said) throw new Unread(text);
    const stages = node.inside.flatMap((n) => /^stage +([\w-]+)/.exec(n.text)?.[1] ?? []);
    const last = stages[stages.length - 1] ?? / to ([a-z][\w-]*)/.exec(text)?.[1];
    const { parts } = this.machine;
    const left = namesAfter(text, "without");
    // What holds a part that is left off is left off with it.
    const holding = Object.keys(parts).filter((name) => parts[name]?.secures?.some((s) => left.includes(s)));
    const without = [...left, ...holding].flatMap((name) => membersOf(this.machine, name, this.member));
    const tools = namesAfter(text, "with");
    for (const name of (said[2] as string).split(/, ?/)) {
      if (!parts[name]) continue;
      const all = this.machine.stages.get(name) ?? [];
      // The enumeration knows the first stage and the last: one between them changes nothing that it tells.
      if (last !== undefined && all.slice(1, -1).includes(last)) continue;
      const act = {
        does: "act",
        verb,
        line: node.line + this.off,
        age: (said[1] as "new" | "old" | undefined) ?? null,
        discard: / discard\b/.test(text),
        byHand: / by hand\b/.test(text),
        stage: last !== undefined && all.length > 0 && last !== all[all.length - 1] ? "snug" : null,
        lifted: / by two people\b/.test(text) || tools.some((tool) => this.machine.lifters.has(tool)),
        without,
      } as const;
      for (const thing of membersOf(this.machine, name, this.member))
        this.instructions.push({ ...act, thing });
    }
  }

  private readWhen(node: Node, otherwise: Node | null, check: Check | null): void {
    const words = node.text.split(/\s+/).slice(1);
    const asked = this.checks.includes(words[0] as string) ? (words[0] as string) : null;
    const condition = asked ? null : this.machine.conditions.get(words[0] as string);
    if (!asked && !condition) throw new Unread(node.text);
    const on = asked ?? (condition?.[0] as string);
    const values = asked ? this.valuesFor(asked, words.slice(1).join(" ")) : [condition?.[1] as string];
    const test: Test = { does: "test", on, values, past: 0, counters: [], still: false };
    this.instructions.push(test);
    this.readAll(node.inside, check);
    if (!otherwise) {
      test.past = this.instructions.length;
      return;
    }
    const jump: Jump = { does: "jump", to: 0 };
    this.instructions.push(jump);
    test.past = this.instructions.length;
    this.readAll(otherwise.inside, check);
    jump.to = this.instructions.length;
  }

  private valuesFor(check: string, outcome: string): readonly string[] {
    const all = this.machine.decided[check] ?? [];
    if (all.includes(BEYOND)) return outcome === "not met" ? [BEYOND] : [outcome];
    if (outcome === "not met") return all.filter((value) => value !== "met");
    if (!all.includes(outcome)) throw new Unread(`${check} ${outcome}`);
    return [outcome];
  }

  private readCheck(node: Node, name: string): void {
    const { instructions, machine } = this;
    const isOutcome = ({ text }: Node): boolean => text.startsWith("if ");
    const before = this.counters;
    const check: Check = { name, first: instructions.length, on: [], counters: new Map(), outcome: "" };
    this.labels.set(name, check.first);
    machine.decided[name] = outcomesOf(node.inside);
    this.checks.push(name);
    this.readAll(
      node.inside.filter((n) => !isOutcome(n)),
      check,
    );
    instructions.push({ does: "ask", check: name });
    for (const outcome of node.inside.filter(isOutcome)) this.readOutcome(outcome, check);
    for (const jump of check.on) jump.to = instructions.length;
    const own = Array.from({ length: this.counters - before }, (_, i) => before + i);
    instructions.push({
      does: "forget",
      checks: this.tested.has(name) ? [] : [name],
      counters: own,
    });
  }

  /** Counters go on counting where a later return leads back over their check. */
  private keepCounters(): void {
    const { instructions } = this;
    for (const [at, one] of instructions.entries()) {
      if (one.does !== "forget") continue;
      const again = instructions.slice(at).some((later) => later.does === "back" && later.to < at);
      if (again) instructions[at] = { ...one, counters: [] };
    }
  }

  private readOutcome(node: Node, check: Check): void {
    const words = node.text.split(/\s+/).slice(1);
    const still = words[0] === "still";
    const outcome = (still ? words.slice(1) : words).join(" ");
    const counters = check.counters.get(outcome) ?? [];
    check.counters.set(outcome, counters);
    const values = this.valuesFor(check.name, outcome);
    const test: Test = { does: "test", on: check.name, values, past: 0, counters, still };
    this.instructions.push(test);
    this.readAll(node.inside, { ...check, outcome });
    const jump: Jump = { does: "jump", to: 0 };
    this.instructions.push(jump);
    check.on.push(jump);
    test.past = this.instructions.length;
  }

  private readWayOn(node: Node, word: string, check: Check | null): void {
    if (word === "end") {
      this.instructions.push({ does: "end-job", line: node.line + this.off });
      return;
    }
    const jump: Jump = { does: "jump", to: 0 };
    if (/^go on$/.test(node.text)) {
      if (!check) throw new Unread("go on outside a check");
      this.instructions.push(jump);
      check.on.push(jump);
      return;
    }
    const target = /(?:go to|repeat from) ([\w-]+)/.exec(node.text)?.[1] ?? null;
    if (word === "go") {
      this.instructions.push(jump);
      this.forward.push({ jump, target: target as string });
      return;
    }
    const most = Number(/at most (\d+)/.exec(node.text)?.[1] ?? Number.NaN);
    const to = target === null ? check?.first : this.labels.get(target);
    if (Number.isNaN(most) || to === undefined || !check) throw new Unread(node.text);
    const counter = this.counters++;
    check.counters.get(check.outcome)?.push([counter, most]);
    this.instructions.push({ does: "back", to, counter, most });
  }
}

/** The outcome of a choice by value where none of the values holds. */
const BEYOND = "beyond";

/** How a check can turn out, by what it measures or asks. */
function outcomesOf(inside: readonly Node[]): string[] {
  const limits = inside.filter((n) => n.text.startsWith("limit ")).map((n) => n.text);
  const choices = inside.flatMap((n) => /^choose ([\w-]+)/.exec(n.text)?.[1] ?? []);
  if (choices.length > 0) return limits.length > 0 ? [...choices, BEYOND] : choices;
  if (limits.length > 0) {
    const over = limits.some((limit) => !/at least|over /.test(limit));
    const under = limits.some((limit) => !/at most|under /.test(limit));
    return ["met", ...(over ? ["over"] : []), ...(under ? ["under"] : [])];
  }
  return inside.some((n) => n.text.startsWith("marks ")) ? ["met", "missed"] : ["yes", "no"];
}
