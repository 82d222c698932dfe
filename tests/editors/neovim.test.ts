/** A real editor: Neovim's own client gets findings, hover, a repair and formatting from the bundled server. */
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, expect, test } from "vitest";
import { bundleServer, makeFolder } from "../lsp/client";
import { MACHINE } from "../lsp/texts";

const script = fileURLToPath(new URL("neovim.lua", import.meta.url));

// The figure at fault stands behind signs of two and more bytes, and everything else is spelled in the usual form.
const TEXT = `torquil 1

use "wren-4.torquil"

procedure cover-off "Take the cover off" {
  on wren-4
  document "W4-1"
  revision A 2026-11-20 "First issue."
  tool wrench "For 12 N·m and 60° 🔩"  5,5 to 25 Nm
  tool gauge    "Angle gauge"

  section "All of it" {
    step "Off and on" {
      remove cover-bolts, cover
      fit cover
      fit cover-bolts  by hand
      tighten cover-bolts  with wrench, gauge
    }
  }
}
`;

interface Seen {
  readonly gaveUp?: string;
  readonly messages: readonly string[];
  readonly before: readonly { code: string; line: number; column: number }[];
  readonly hover: { contents: { kind: string; value: string } };
  readonly offered: readonly string[];
  readonly repaired: string;
  readonly formatted: readonly string[];
  readonly after: readonly unknown[];
  readonly exitCode: number;
}

let server = "";
beforeAll(async () => {
  server = await bundleServer();
});

test("findings, hover, a repair and formatting on a line with N·m and °", () => {
  const folder = makeFolder({ "torquil.json": "{}", "wren-4.torquil": MACHINE, "cover.torquil": TEXT });
  const out = join(folder.path, "seen.json");
  const run = spawnSync("nvim", ["--headless", "-u", "NONE", "-i", "NONE", "-n", "-S", script], {
    encoding: "utf8",
    timeout: 90_000,
    env: {
      ...process.env,
      LC_ALL: "C.UTF-8",
      TORQUIL_NODE: process.execPath,
      TORQUIL_SERVER: server,
      TORQUIL_ROOT: folder.path,
      TORQUIL_FILE: join(folder.path, "cover.torquil"),
      TORQUIL_OUT: out,
    },
  });
  expect(run.error, "Neovim must be on the path; on Debian: apt-get install neovim").toBeUndefined();
  const seen: Seen = existsSync(out) ? JSON.parse(readFileSync(out, "utf8")) : { gaveUp: run.stderr };
  folder.dispose();
  expect(seen.gaveUp).toBeUndefined();
  expect(seen.messages).toEqual([]);

  const lines = TEXT.split("\n");
  const line = lines.findIndex((l) => l.includes("5,5"));
  // Neovim counts columns in bytes: its place is right only when ours was right in UTF-16.
  const column = Buffer.byteLength((lines[line] ?? "").slice(0, lines[line]?.indexOf("5,5")));
  expect(seen.before).toContainEqual(expect.objectContaining({ code: "decimal-comma", line, column }));

  expect(seen.hover.contents.kind).toBe("markdown");
  expect(seen.hover.contents.value).toContain("snug: 12 N·m");

  expect(seen.offered[0]).toContain("5.5");
  // In a text that is not in the usual form a repair touches only what it is about.
  expect(seen.repaired).toBe('  tool wrench "For 12 N·m and 60° 🔩"  5.5 to 25 Nm');
  expect(seen.formatted[line]).toBe('  tool wrench "For 12 N·m and 60° 🔩"  5.5 to 25 N·m');
  expect(seen.formatted.filter((_, at) => at !== line)).toEqual(
    lines
      .filter((_, at) => at !== line)
      .slice(0, -1)
      .map((text) => text.replace(/(tool gauge) +/, "$1 ")),
  );
  expect(seen.after).toEqual([]);
  expect(seen.exitCode).toBe(0);
});
