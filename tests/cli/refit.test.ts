/** `torquil refit`: shows the steps that are missing, or writes them into the file. */
import { expect, test } from "vitest";
import { inProcess } from "./in-process";

const MACHINE = `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
  fastener bolts "Cover bolts" {
    secures cover
    tighten 22 N·m
  }
}
`;
const JOB = `torquil 1

use "winch.torquil"

procedure look "Look at the winch" {
  on winch
  tool wrench "Torque wrench"  5 to 50 N·m

  section "Open" {
    step "Open" {
      remove bolts, cover
    }
  }
}
`;
const WRITTEN = JOB.replace(
  "    }\n  }\n}\n",
  `    }
  }

  section "Put back" {
    step "Gear cover" {
      fit cover
      fit bolts  by hand
      tighten bolts  with wrench
    }
  }
}
`,
);
const FILES = { "/home/winch.torquil": MACHINE, "/home/look.torquil": JOB };
const refit = (args: readonly string[], files: Record<string, string> = FILES) =>
  inProcess(["refit", "look.torquil", ...args], files);

test("shows what is missing with its place; nothing is written", async () => {
  const { code, out, err, read } = await refit([]);
  expect({ code, err }).toEqual({ code: 0, err: "" });
  expect(out).toBe(`  // above line 14
  section "Put back" {
    step "Gear cover" {
      fit cover
      fit bolts  by hand
      tighten bolts  with wrench
    }
  }
`);
  expect(read("/home/look.torquil")).toBe(JOB);
});

test("writes it into the file, which then owes nothing", async () => {
  const { code, out, read } = await refit(["--write"]);
  expect({ code, out }).toEqual({ code: 0, out: "look.torquil  8 lines added\n" });
  expect(read("/home/look.torquil")).toBe(WRITTEN);
  const files = { ...FILES, "/home/look.torquil": WRITTEN };
  expect((await inProcess(["check", "look.torquil"], files)).code).toBe(0);
  const again = await refit(["--write"], files);
  expect(again).toMatchObject({ code: 0, out: "" });
  expect(again.err).toBe("Nothing is owed at the end of “Look at the winch”: there is nothing to write.\n");
});

test("what cannot be written is said, with exit code 1", async () => {
  const split = JOB.replace(
    "      remove bolts, cover\n    }\n",
    `      wait 5 min
    }
    check dry "Is it dry" {
      observe "Is it dry?"
      if no {
        go to last
      }
    }
    step "Off" {
      remove bolts, cover
    }
    step last "Last" {
      wait 5 min
    }
`,
  );
  const { code, err, out } = await refit([], { ...FILES, "/home/look.torquil": split });
  expect(code).toBe(1);
  expect(err).toContain("warning: “Gear cover” is off at the end on some ways only (“Is it dry” is yes)");
  expect(err).toContain("Name the check and write “record” in it");
  expect(out).toBe("");
  const recorded = split.replace('observe "Is it dry?"\n', 'observe "Is it dry?"\n      record\n');
  const told = await refit([], { ...FILES, "/home/look.torquil": recorded });
  expect({ code: told.code, err: told.err }).toEqual({ code: 0, err: "" });
  expect(told.out).toContain("when dry yes {");
});

test("a procedure that cannot be followed, one of several, and wrong use are told in words", async () => {
  const broken = await refit([], {
    ...FILES,
    "/home/look.torquil": JOB.replace("bolts, cover", "bolts, cower"),
  });
  expect(broken.code).toBe(1);
  expect(broken.err).toContain("“Look at the winch” is not followed");
  const two = `${JOB}\n${JOB.slice(JOB.indexOf("procedure")).replace("look", "second")}`;
  const several = await refit([], { ...FILES, "/home/look.torquil": two });
  expect(several.code).toBe(2);
  expect(several.err).toContain("choose one with --procedure look, --procedure second");
  const second = await refit(["--procedure", "second"], { ...FILES, "/home/look.torquil": two });
  expect(second.out).toContain("// above line 25");
  expect((await inProcess(["refit"], FILES)).code).toBe(2);
  expect((await inProcess(["refit", "none.torquil"], FILES)).code).toBe(2);
  const help = await inProcess(["refit", "--help"], FILES);
  expect(help.code).toBe(0);
  expect(help.out).toContain("Exit code: 0");
});
