/**
 * What a tightening comes to: the force it clamps with, how much of the bolt's yield that uses, whether an angle after it makes it yield,
 * which spanner fits. Nothing is said that what is written does not decide.
 */
import { fastenerFacts } from "../facts";
import type { AngleStage } from "../mechanics/angle";
import { gripRange } from "../mechanics/resilience";
import type { Thread } from "../mechanics/threads";
import { preloadOf, tighteningFor } from "../mechanics/tightening";
import { widthsAcrossFlats } from "../mechanics/widths";
import type { Machine, Thing } from "../model";
import { hoverPhrase as say } from "../phrases/hover";
import { type BoltTorque, torquesOf } from "../rules/bolt-torques";
import { assumedOf, figureText, forceText, shareText } from "../rules/bolt-words";
import { angleIn, boltIn, clampsMetal } from "../walk/bolts";

/** Sentences on a fastener: each of its torques, the angles after them, the spanner where the writer says none. */
export function aboutBolt(fastener: Thing, machine: Machine | null): readonly string[] {
  const torques = torquesOf(fastener, machine);
  return [...torques.flatMap(aboutTorque), ...aboutAngle(torques), ...aboutSpanner(fastener, machine)];
}

/** The force of one torque; nothing where the thread's state is not said, or it does not clamp metal. */
export function aboutTorque({ bolt: known, quantity, torque }: BoltTorque): readonly string[] {
  const { bolt, facts, said } = known;
  const preload = said.state !== null && clampsMetal(facts) ? preloadOf(bolt, torque) : undefined;
  if (!preload) return [];
  const { force, share } = preload;
  // Past its yield a bolt holds about what it held there.
  const most = Math.min(force.high, tighteningFor(bolt, 1)?.force.high ?? force.high);
  const args = {
    torque: figureText(quantity),
    force: forceText({ low: Math.min(force.low, most), high: most }),
    assumed: assumedOf(known),
  };
  return [share ? say("preload-share", { ...args, share: shareText(share) }) : say("preload", args)];
}

function aboutAngle(torques: readonly BoltTorque[]): readonly string[] {
  const known = torques[0]?.bolt;
  if (!known || known.said.state === null || !clampsMetal(known.facts)) return [];
  const found = angleIn(known);
  if (!found) return [];
  const force = forceText(found.after);
  if (found.yields !== "cannot-tell") return [say(ANGLES[found.yields], { force })];
  const grip = known.facts.grip ? null : gripRange(known.thread, null);
  if (grip) {
    const [low, high] = [lengthText(grip.low, known.thread), lengthText(grip.high, known.thread)];
    return [say("after-angle.unclamped", { force, low, high })];
  }
  return [say(found.yieldsAt ? "after-angle" : "after-angle.no-class", { force })];
}

/** A length in metres, in the thread's own system of units. */
const lengthText = (metres: number, { system }: Thread): string =>
  system === "metric" ? `${Math.round(metres * 1000)} mm` : `${Math.round(metres / 0.00254) / 10} in`;

const ANGLES = {
  yes: "after-angle.yields",
  no: "after-angle.elastic",
} as const satisfies Partial<Record<AngleStage["yields"], string>>;

/** The hexagon's usual widths across flats, where the writer gives none. */
function aboutSpanner(fastener: Thing, machine: Machine | null): readonly string[] {
  const { spanner, setting } = fastenerFacts(fastener.entry);
  // A screw that sets something seldom has a hexagon of the usual size.
  if (spanner || setting) return [];
  const known = boltIn(fastener, (name) => machine?.things.find((t) => t.name === name));
  const [first, ...older] = known ? widthsAcrossFlats(known.thread) : [];
  if (!first) return [];
  const width = `${first.marked} ${first.unit}`;
  const others = older.map(({ marked, unit }) => `${marked} ${unit}`).join(", ");
  return [say(others === "" ? "hexagon" : "hexagon-older", { width, source: first.source, older: others })];
}
