/**
 * Small projects for the tests of features, with the cursor written into the text as `$0`.
 */
import type { Position } from "../../grammar";
import { type Completion, completion, hover } from "../../server/features";
import type { Project } from "../../server/model";
import { createWorkspace, memoryFiles } from "../../server/project";
import type { Finding } from "../../server/rules";

/** A machine small enough to read, with something of each kind that features look at. */
export const MACHINE = `torquil 1

machine wren-4 "Wren 4 water pump" {
  view front "Looking at the belt"
  fluid coolant "Coolant"  4.2 L  hot pressurised
  consumable sealant "Flange sealant"  open-time 10 min
  cable lead "Battery negative lead"  battery
  part cover "Belt cover"  weight 4 kg
  part pump "Water pump" {
    behind belt, cover
    contains coolant
  }
  fastener cover-bolts "Cover bolts" {
    secures cover
    thread  M8
    class   8.8
    dry
    count   4
    tighten 22 N·m  crosswise
  }
  fastener pump-bolt "Pump bolt" {
    secures pump
    thread  M12 x 1.25
    class   10.9
    oiled   sealant
    stage   snug   40 N·m
    stage   final  90°
    renew   every time
  }
  shaft crank "Crankshaft"  turns clockwise only
  belt belt "Drive belt"  ribbed  behind cover
}
`;

export const PROCEDURE = `torquil 1

use "wren-4.torquil"

procedure renew-pump "Renew the water pump" {
  on wren-4
  kit "K-1" {
    item pump 1 "WP-4"
    item pump-bolt 1 "PB-4"
  }
  tool torque-wrench "Torque wrench"  10 to 100 N·m
  tool angle-gauge "Angle gauge"
  temporary pin "Locking pin"  into pump  diameter 6 mm

  section "Take off" {
    step undo "Undo it" {
      remove cover-bolts, cover
      remove belt
    }
    check slack "Slack of the belt" {
      limit 5 to 8 mm
      if over {
        go on
      }
    }
  }
  section "Put on" {
    step "Fit it" {
      fit new pump-bolt  by hand
      tighten pump-bolt {
        stage snug  with torque-wrench
        stage final with angle-gauge
      }
    }
  }
}
`;

export interface Marked {
  readonly project: Project;
  readonly findings: ReadonlyMap<string, readonly Finding[]>;
  readonly path: string;
  readonly position: Position;
}

/** Opens files with \`$0\` in one of them: where the cursor is. */
export function marked(files: Readonly<Record<string, string>>): Marked {
  const texts = new Map(Object.entries(files));
  let path = [...texts.keys()][0] ?? "";
  let position: Position = { line: 0, character: 0 };
  for (const [name, text] of texts) {
    const at = text.indexOf("$0");
    if (at < 0) continue;
    const before = text.slice(0, at).split("\n");
    path = name;
    position = { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
    texts.set(name, text.replace("$0", ""));
  }
  const disk = memoryFiles(Object.fromEntries([...texts].map(([name, text]) => [`/p/${name}`, text])));
  const workspace = createWorkspace(disk, "/p");
  return { project: workspace.project(), findings: workspace.check(), path, position };
}

/** The machine and the procedure, with one stretch of one of them changed; the new text holds the cursor. */
export function changed(stretch: string, to: string): Marked {
  const both = { "wren-4.torquil": MACHINE, "renew.torquil": PROCEDURE };
  const names = Object.entries(both).filter(([, text]) => text.includes(stretch));
  const [name, text] = names.at(-1) ?? [];
  if (name === undefined || text === undefined) throw new Error(`not in the texts: ${stretch}`);
  return marked({ ...both, [name]: text.replace(stretch, to) });
}

/** What completion offers there. */
export function offered({ project, path, position }: Marked): readonly Completion[] {
  return completion(project, path, position);
}

/** The labels of what completion offers, of some kinds or of all. */
export function labels(at: Marked, ...kinds: readonly string[]): readonly string[] {
  return offered(at)
    .filter((c) => kinds.length === 0 || kinds.includes(c.kind))
    .map((c) => c.label);
}

/** What is told there, as lines: kind and name, title, sentences. */
export function told({ project, path, position }: Marked): readonly string[] {
  const found = hover(project, path, position);
  return found
    ? [`${found.kind} ${found.name}`.trim(), found.title, ...found.sentences].filter((s) => s !== "")
    : [];
}
