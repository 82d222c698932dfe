/** Hovering a step or check tells how everything stands before it, below what there is to say of it. */
import { expect, test } from "vitest";
import { changed, MACHINE, marked, PROCEDURE, told } from "./support";

const BEFORE = "How everything stands before it:";
const NONE = "Before it, everything is as it should be.";

/** What is told of the state, with the sentences in front of it left out. */
const state = (at: Parameters<typeof told>[0]): readonly string[] => {
  const all = told(at);
  const from = all.findIndex((sentence) => sentence === BEFORE || sentence === NONE);
  return from < 0 ? [] : all.slice(from);
};

test("on the head word below what the word means, on the name, on the title", () => {
  const meant = [
    BEFORE,
    "Off or out: Cover bolts; Belt cover; Drive belt.",
    "Owed before the end: fit and tighten “Cover bolts”; fit “Belt cover”; fit “Drive belt”.",
  ];
  for (const [text, cursor] of [
    ["check slack", "ch$0eck slack"],
    ["check slack", "check sl$0ack"],
    ['"Slack of the belt"', '"Slack of$0 the belt"'],
    ['step "Fit it"', 'step "Fi$0t it"'],
  ] as const)
    expect(state(changed(text, cursor)), cursor).toEqual(meant);
  expect(told(changed("check slack", "ch$0eck slack")).slice(0, 2)).toEqual([
    "word of the language check",
    "Something measured, seen or asked, and what follows.",
  ]);
  expect(told(changed('"Slack of the belt"', '"Slack of$0 the belt"')).slice(0, 3)).toEqual([
    "check slack",
    "Slack of the belt",
    "Number 2 on the sheet.",
  ]);
});

test("where nothing differs it says so, and elsewhere nothing is added", () => {
  expect(state(changed("step undo", "step un$0do"))).toEqual([NONE]);
  expect(state(changed("remove belt\n", "rem$0ove belt\n"))).toEqual([]);
  expect(state(changed('section "Put on"', 'sec$0tion "Put on"'))).toEqual([]);
});

test("where a step is named elsewhere, how things stand before it", () => {
  const at = changed("        go on\n", "        repeat from un$0do at most 1 time\n");
  expect(state(at)).toEqual([
    BEFORE,
    "Off or out: Cover bolts (“Slack of the belt” is over); Belt cover (“Slack of the belt” is over); Drive belt (“Slack of the belt” is over).",
    "Owed before the end: fit and tighten “Cover bolts”, on some ways; fit “Belt cover”, on some ways; fit “Drive belt”, on some ways.",
  ]);
});

test("what differs, with its way; more than is otherwise as said; what stays so", () => {
  const procedure = PROCEDURE.replace("      remove belt\n", "      insert pin\n      open tap\n")
    .replace("  kit ", '  symptom leak "It drips"\n  kit ')
    .replace(
      "      remove cover-bolts, cover\n",
      "      when leak {\n        drain coolant\n      }\n      loosen pump-bolt by 1/2 turn\n",
    )
    .replace('step "Fit it"', 'step "F$0it it"');
  expect(procedure).toContain("open tap");
  const machine = MACHINE.replace("  shaft crank", '  tap tap "Drain tap"\n  shaft crank');
  expect(state(marked({ "wren-4.torquil": machine, "renew.torquil": procedure }))).toEqual([
    BEFORE,
    "Not tight: Pump bolt (loose).",
    "Disconnected, open or isolated: Drain tap (open).",
    "Drained: Coolant (when “It drips”).",
    "Put in for the time being: Locking pin.",
    "Owed before the end: fill “Coolant”, on some ways; tighten “Pump bolt”; pull “Locking pin”; close “Drain tap”.",
  ]);
});

test("a procedure that cannot be followed has no states, and the rest of the hover stays", () => {
  const at = changed("      remove cover-bolts, cover\n", "      remove cover-bolts, covr\n");
  const project = {
    ...at,
    path: "renew.torquil",
    position: { line: PROCEDURE.split("\n").findIndex((l) => l.includes("check slack")), character: 12 },
  };
  expect(state(project)).toEqual([]);
  expect(told(project)).toContain("Number 2 on the sheet.");
});

const PRESS = `torquil 1

machine press "Press" {
  part motor-pulley "Motor pulley"
  part screw-pulley "Screw pulley"
  shaft motor "Motor shaft"  turns anticlockwise
  shaft screw "Screw"
  belt belt "Belt" {
    toothed
    pulley motor-pulley  teeth 20  on motor
    pulley screw-pulley  teeth 40  on screw
  }
  mark motor-mark "Motor dot"  on motor  at 0°
  mark screw-mark "Screw dot"  on screw  at 0°
}

procedure look "Look" {
  on press
  symptom noise "Noise"
  step "Set" {
    align motor-mark, screw-mark
    when noise {
      turn motor 1 turn anticlockwise
    }
  }
  step "Tu$0rned" {
    end job "Done."
  }
  step "Never" {
    wait 5 min
  }
}
`;

test("where shafts and marks stand, on each way", () => {
  const [before, ...ways] = state(marked({ "press.torquil": PRESS }));
  expect(before).toBe(BEFORE);
  const together = "Motor shaft, Screw turn together";
  expect([...ways].sort()).toEqual([
    `Shafts and marks, when not “Noise”: ${together}; Motor shaft stands at nought; Screw stands at nought; Motor dot is in line; Screw dot is in line.`,
    `Shafts and marks, when “Noise”: ${together}; Motor shaft stands at nought; Screw stands at 1/2 of a turn; Motor dot is in line; Screw dot stands 1/2 of a turn from its line.`,
  ]);
});

test("a step that no way comes to", () => {
  const at = marked({ "press.torquil": PRESS.replace("$0", "").replace('"Never"', '"Nev$0er"') });
  expect(told(at).at(-1)).toBe("No way through the procedure comes here.");
});
