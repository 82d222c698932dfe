/** The refit of procedures written by hand: in which order, under which condition, at which place, in which form. */
import { expect, test } from "vitest";
import { documentText } from "../../grammar";
import { inUsualForm, offeredActions, refit } from "../../server/features";
import { editedDocument } from "../../server/features/trial";
import type { Procedure } from "../../server/model";
import type { Language } from "../../server/phrases/sheet";
import { DEFAULT_RULE_SETTINGS } from "../../server/rules";
import { projectOf } from "../support/project";
import { refitted } from "./refit-support";
import { after, expectWritten, flat, HEAD, MACHINE } from "./refit-tiller";

test("what is behind goes on first, each with all its stages, oil and new parts; what is full again is closed", () => {
  const done = after(`
      step "Off" {
        remove cowl-screws, cowl
        wait until coolant below 40 °C
        warning burn {
          "Hot."
          can "Scald."
          so  "Wait."
        }
        open filler-cap
        drain coolant  with tray
        remove pipe-bolts, pipe
        remove seal  discard
      }
  `);
  expectWritten(
    done,
    "fit new seal",
    "fit pipe",
    "lubricate pipe-bolts with grease",
    "fit pipe-bolts by hand",
    "tighten pipe-bolts with small-wrench",
    "fill coolant",
    "close filler-cap",
  );
  expectWritten(
    done,
    "fit pipe",
    "fit cowl",
    "fit cowl-screws by hand",
    "tighten cowl-screws with small-wrench",
  );
});

test("the battery comes last, and behind it only what is restored", () => {
  const done = after(`
      step "Off" {
        isolate starter
        disconnect battery-lead
        remove cowl-screws, cowl
        disconnect plug
      }
  `);
  expectWritten(
    done,
    "connect plug",
    "fit cowl",
    "tighten cowl-screws",
    "warning fire",
    "connect battery-lead",
    "restore starter",
  );
});

const LIFTED = `
      step "Up" {
        warning crushing {
          "It may fall."
          can "Crush a foot."
          so  "Use the stand."
        }
        raise tiller  with jack
        support tiller  with stand  by two people
        remove wheel-nuts, left-wheel
      }
`;

test("raised and supported: the wheel goes on in the air, its last stage on the ground, the jack is named again", () => {
  expectWritten(
    after(LIFTED),
    "fit left-wheel",
    "fit wheel-nuts by hand",
    "tighten wheel-nuts to snug with small-wrench",
    "release tiller by two people",
    "lower tiller with jack",
    "tighten wheel-nuts to full with wrench",
  );
});

test("nuts that a later line tightens without anybody having put them in are put in before it", () => {
  const done = after(`${LIFTED}
      step "After the first drive" {
        tighten wheel-nuts  to full  with wrench
      }
  `);
  expectWritten(done, "fit left-wheel", "fit wheel-nuts by hand");
  const text = flat(done.text);
  expect(text.indexOf("fit wheel-nuts by hand")).toBeLessThan(text.indexOf("After the first drive"));
});

const BELT = `
      step "Belt off" {
        remove cowl-screws, cowl
        insert crank-pin
        insert pin  with lever
        remove drive-belt
        warning stored-energy {
          "A spring."
          can "Crush a finger."
          so  "Let it down slowly."
        }
        pull pin  with lever
      }
`;

test("a belt goes on with its tensioner held back; pins come out before the cover goes on", () => {
  expectWritten(
    after(BELT),
    "insert pin with lever",
    "fit drive-belt",
    "pull pin with lever",
    "pull crank-pin",
    "fit cowl",
  );
  const stillIn = after(BELT.replace(/^.*warning[\s\S]*?\}\n.*pull pin.*\n/m, ""));
  expectWritten(stillIn, "fit drive-belt", "pull", "fit cowl");
  expect(stillIn.added).not.toContain("insert");
});

test("a hose goes through its clips, and its union is tightened", () => {
  expectWritten(
    after(`
      step "Hose off" {
        remove cowl-screws, cowl
        remove union, oil-hose
      }
  `),
    "fit oil-hose",
    "run oil-hose through clip-a, clip-b",
    "fit union by hand",
    "tighten union with wrench",
    "fit cowl",
  );
});

test("all of it goes before the machine is started, but for what the start leaves off", () => {
  const start = (without: string): string => `
      section "Strip" {
        step "Off" {
          disconnect battery-lead
          remove cowl-screws, cowl
          disconnect plug
        }
      }
      section "Prove" {
        step "Try" {
          start tiller${without}
          stop tiller
        }
      }
  `;
  const whole = after(start(""));
  expectWritten(whole, "connect plug", "fit cowl", "connect battery-lead");
  expect(flat(whole.text)).toMatch(/connect battery-lead } } section "Prove"/);
  const open = after(start("  without cowl"));
  expectWritten(open, "connect plug", "connect battery-lead", "fit cowl", "tighten cowl-screws");
  expect(flat(open.text)).toMatch(/stop tiller } } section "Put back the rest" \{ step "Fan cowl"/);
});

test("what was forgotten goes in front of the line that covers it", () => {
  const done = after(`
      step "Off" {
        remove cowl-screws, cowl
        disconnect plug
      }
      step "Cowl on" {
        fit cowl
        fit cowl-screws  by hand
        tighten cowl-screws  with small-wrench
      }
  `);
  expectWritten(done, "connect plug");
  expect(flat(done.text)).toMatch(/connect plug } step "Cowl on"/);
});

test("what was only put in by hand is tightened before it is covered", () => {
  const done = after(`
      step "Off and on" {
        remove cowl-screws, cowl
        remove union, oil-hose
        fit oil-hose
        fit union  by hand
        fit cowl
        fit cowl-screws  by hand
      }
  `);
  expectWritten(done, "tighten union with wrench", "tighten cowl-screws");
  expect(flat(done.text)).toContain("fit union by hand tighten union with wrench fit cowl");
});

test("a condition: under it what came off under it, with all that secures it", () => {
  const done = after(`
      step "Off" {
        when squeal {
          remove cowl-screws, cowl
        }
        otherwise {
          disconnect battery-lead
        }
      }
  `);
  expectWritten(
    done,
    "when squeal { fit cowl fit cowl-screws by hand tighten cowl-screws with small-wrench }",
    'when squeal { "Nothing is to be put back then." } otherwise {',
    "connect battery-lead",
  );
});

test("a condition in a condition", () => {
  const done = after(`
      step "Off" {
        when squeal {
          remove cowl-screws, cowl
          when heated {
            disconnect plug
          }
        }
      }
  `);
  expectWritten(done, "when squeal { when heated { connect plug } }", "when squeal { fit cowl");
});

const CHECKED = (record: string): string => `
      step "Off" {
        remove cowl-screws, cowl
      }
      check play "Play of the idler" {
        limit at most 0.2 mm
        ${record}
        if over {
          disconnect plug
        }
      }
`;

test("an outcome: under the recorded check; where it is not recorded, in the outcome itself", () => {
  expectWritten(after(CHECKED("record")), "when play over { connect plug }", "fit cowl");
  const bare = after(CHECKED('place "Rim"'));
  expectWritten(bare, "connect plug", "fit cowl");
  expect(flat(bare.text)).toContain("disconnect plug connect plug } }");
});

test("a return: what a repeated step leaves is put right once, behind the last pass", () => {
  const done = after(`
      step open-it "Open" {
        remove cowl-screws, cowl
      }
      check play "Play of the idler" {
        limit at most 0.2 mm
        record
        if over {
          fit cowl
          fit cowl-screws  by hand
          tighten cowl-screws  with small-wrench
          repeat from open-it  at most 2 times
        }
        if still over {
          end job "Renew the idler."
        }
      }
  `);
  expectWritten(done, "fit cowl", "fit cowl-screws by hand", "tighten cowl-screws");
  expect(done.added.match(/fit cowl\n/g)).toHaveLength(1);
});

test("a job that ends early: what must not be forgotten comes out there too", () => {
  const done = after(`
      step "Pin" {
        insert crank-pin
      }
      check play "Play of the idler" {
        limit at most 0.2 mm
        if over {
          end job "Renew the idler."
        }
      }
  `);
  expectWritten(done, "pull crank-pin", "pull crank-pin");
  expect(flat(done.text)).toContain('pull crank-pin end job "Renew the idler."');
});

test("a job that ends early while a pin is in on some ways only: out under the same condition", () => {
  const done = after(`
      step "Pin" {
        when squeal {
          insert crank-pin
        }
      }
      check play "Play of the idler" {
        limit at most 0.2 mm
        if over {
          end job "Renew the idler."
        }
      }
  `);
  expectWritten(done, "when squeal { pull crank-pin }", "when squeal { pull crank-pin }");
  expect(flat(done.text)).toContain('when squeal { pull crank-pin } end job "Renew the idler."');
});

test("ways that nothing tells apart are told, with what to do; the rest is written", () => {
  const done = after(`
      step "Off" {
        remove cowl-screws, cowl
        disconnect battery-lead
      }
      check play "Play of the idler" {
        limit at most 0.2 mm
        if over {
          go to done
        }
      }
      step "On" {
        warning fire {
          "A spark."
          can "Burn."
          so  "Air the room."
        }
        connect battery-lead
      }
      step done "Done" {
        wait 5 min
      }
  `);
  expect(done.problems).toHaveLength(1);
  expect(done.problems[0]).toMatch(
    /^“Battery lead” is disconnected at the end on some ways only \(“Play of the idler” is over\), and no condition and no recorded check/,
  );
  expect(done.wrong).toEqual(["connection-left-open: disconnect battery-lead"]);
  expect(done.added).toContain("tighten cowl-screws");
});

test("a part that the kit has only in one case: the new one then, otherwise the old one", () => {
  const text = `${HEAD.replace("    item seal 1\n", "    item seal 1\n    item pipe 1  only if worn yes\n")}${`
  check worn "Pipe" {
    observe "Is it worn?"
    record
  }
  step "Off" {
    remove cowl-screws, cowl
    remove pipe-bolts
    remove pipe  with tray
  }
}
`}`;
  expectWritten(
    refitted({ "job.torquil": text, "tiller.torquil": MACHINE }, "job.torquil"),
    "when worn yes { fit new pipe } otherwise { fit pipe }",
  );
});

test("nothing is written where nothing is owed, or where it is meant to stay so", () => {
  const stays = after(`
      ends with {
        off cowl
      }
      step "Off" {
        remove cowl-screws, cowl
      }
  `);
  expect(stays).toMatchObject({ added: "", problems: [], wrong: [] });
});

const WORK = `  step "Off" {
    remove cowl-screws, cowl
    disconnect plug
  }
}
`;

test("line ends and the final state of a text are kept, and tabs where it has tabs", () => {
  const crlf = `${HEAD}${WORK}`.replace(/\n/g, "\r\n");
  const windows = refitted({ "job.torquil": crlf, "tiller.torquil": MACHINE }, "job.torquil");
  expect(windows.problems).toEqual([]);
  expect(windows.text.replace(/\r\n/g, "")).not.toMatch(/[\r\n]/);
  const tabs = `${HEAD}${WORK}`.replace(/^ +/gm, (spaces) => "\t".repeat(spaces.length / 2));
  const tabbed = refitted({ "job.torquil": tabs, "tiller.torquil": MACHINE }, "job.torquil");
  expect(tabbed.problems).toEqual([]);
  expect(tabbed.added).toContain("\t\tfit cowl\n");
  expect(tabbed.added).not.toMatch(/^ /m);
});

test("what it writes into the text is in the language of the sheets", () => {
  const text = `${HEAD}  section "Off" {
    step "Cowl" {
      remove cowl-screws, cowl
      disconnect battery-lead
    }
  }
}
`;
  const project = projectOf({ "job.torquil": text, "tiller.torquil": MACHINE });
  const procedure = project.files.get("job.torquil")?.procedures[0] as Procedure;
  const writtenIn = (language: Language): string =>
    refit(project, procedure, { ...DEFAULT_RULE_SETTINGS, language })
      .edits.map((edit) => edit.text)
      .join("");
  for (const [language, section, danger] of [
    ["en", "Put back", "A spark can light vapour or gas."],
    ["de", "Zusammenbauen", "Ein Funke kann Dampf oder Gas entzünden."],
    ["fr", "Remonter", "Une étincelle peut enflammer vapeurs ou gaz."],
    ["es", "Montar de nuevo", "Una chispa puede encender vapores o gas."],
  ] as const) {
    const written = writtenIn(language);
    expect(written).toContain(`section "${section}"`);
    expect(written).toContain(`"${danger}"`);
  }
});

test("an editor offers it anywhere in a procedure at whose end something is owed, and nowhere else", () => {
  const clean = `procedure other "Other" {\n  on tiller\n  step "Wait" {\n    wait 1 min\n  }\n}\n`;
  const text = `${HEAD}${WORK}\n${clean}`;
  const project = projectOf({ "job.torquil": text, "tiller.torquil": MACHINE });
  const lineOf = (part: string): number => text.split("\n").findIndex((line) => line.includes(part));
  const at = (part: string) => {
    const here = { line: lineOf(part), character: 0 };
    return offeredActions(project, "job.torquil", [], { from: here, to: here }).find(
      (a) => a.kind === "refit",
    );
  };
  expect(at("wait 1 min")).toBeUndefined();
  expect(at("use ")).toBeUndefined();
  const action = at("symptom squeal");
  expect(action?.title).toBe("Write the refit of all that is owed at the end of “Work on the tiller”");
  expect(action?.leaves).toEqual([]);
  const document = project.files.get("job.torquil")?.document;
  const edits = inUsualForm(project, action?.edits ?? []);
  const made = document && documentText(editedDocument(document, "job.torquil", edits));
  expect(made).toContain("connect plug");
  const procedure = projectOf({ "job.torquil": made ?? "", "tiller.torquil": MACHINE }).files.get(
    "job.torquil",
  )?.procedures[0];
  expect(procedure && refit(projectOf({}), procedure).edits).toEqual([]);
});
