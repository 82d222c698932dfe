/**
 * Every rule, in the order of the codes. `npm run new-rule CODE` adds its lines here.
 */
import { adapterWithoutSetting } from "./adapter-without-setting";
import { angleGaugeMissing } from "./angle-gauge-missing";
import { badNumber } from "./bad-number";
import { bareNumber } from "./bare-number";
import { blockNotClosed } from "./block-not-closed";
import { blockNotHere } from "./block-not-here";
import { blockedBy } from "./blocked-by";
import { braceMissing } from "./brace-missing";
import { braceStray } from "./brace-stray";
import { cautionIncomplete } from "./caution-incomplete";
import { cautionLate } from "./caution-late";
import { cautionMissing } from "./caution-missing";
import { checkWithoutOutcome } from "./check-without-outcome";
import { consumableUndeclared } from "./consumable-undeclared";
import { decimalComma } from "./decimal-comma";
import { duplicateName } from "./duplicate-name";
import { endlessRepeat } from "./endless-repeat";
import { fastenerStillHolds } from "./fastener-still-holds";
import { fingerTightLeft } from "./finger-tight-left";
import { forbiddenToolUsed } from "./forbidden-tool-used";
import { includeLoop } from "./include-loop";
import { kitItemMissing } from "./kit-item-missing";
import { kitItemUnused } from "./kit-item-unused";
import { limitsEmpty } from "./limits-empty";
import { limitsReversed } from "./limits-reversed";
import { loadOverRating } from "./load-over-rating";
import { lookAlikeLetter, lookAlikeName } from "./look-alike-letter";
import { missingFile } from "./missing-file";
import { notUnderstood } from "./not-understood";
import { openTimePassed } from "./open-time-passed";
import { outOfPlace } from "./out-of-place";
import { outsideProject } from "./outside-project";
import { partLeftOff } from "./part-left-off";
import { rangesGap } from "./ranges-gap";
import { rangesOverlap } from "./ranges-overlap";
import { retryNeedsMoreParts } from "./retry-needs-more-parts";
import { runMisses } from "./run-misses";
import { runRepeats } from "./run-repeats";
import { saidTwice } from "./said-twice";
import { stillMissing } from "./still-missing";
import { temporaryLeftIn } from "./temporary-left-in";
import { tooDeep } from "./too-deep";
import { toolOutOfRange } from "./tool-out-of-range";
import { toolUndeclared } from "./tool-undeclared";
import { toolUnused } from "./tool-unused";
import type { Rule } from "./types";
import { unitsDisagree } from "./units-disagree";
import { unknownHazard } from "./unknown-hazard";
import { unknownName } from "./unknown-name";
import { unknownUnit } from "./unknown-unit";
import { unreadableFile } from "./unreadable-file";
import { unusedDeclaration, unusedInMachine } from "./unused-declaration";
import { versionUnknown } from "./version-unknown";
import { walkLimit } from "./walk-limit";
import { wrongDimension } from "./wrong-dimension";
import { wrongKind } from "./wrong-kind";
import { yieldWithoutRenewal } from "./yield-without-renewal";

export const RULES: readonly Rule[] = [
  adapterWithoutSetting,
  angleGaugeMissing,
  badNumber,
  bareNumber,
  blockNotClosed,
  blockNotHere,
  blockedBy,
  braceMissing,
  braceStray,
  cautionIncomplete,
  cautionLate,
  cautionMissing,
  checkWithoutOutcome,
  consumableUndeclared,
  decimalComma,
  duplicateName,
  endlessRepeat,
  fastenerStillHolds,
  fingerTightLeft,
  forbiddenToolUsed,
  includeLoop,
  kitItemMissing,
  kitItemUnused,
  limitsEmpty,
  limitsReversed,
  loadOverRating,
  lookAlikeLetter,
  lookAlikeName,
  missingFile,
  notUnderstood,
  openTimePassed,
  outOfPlace,
  outsideProject,
  partLeftOff,
  rangesGap,
  rangesOverlap,
  retryNeedsMoreParts,
  runMisses,
  runRepeats,
  saidTwice,
  stillMissing,
  temporaryLeftIn,
  tooDeep,
  toolOutOfRange,
  toolUndeclared,
  toolUnused,
  unitsDisagree,
  unknownHazard,
  unknownName,
  unknownUnit,
  unreadableFile,
  unusedDeclaration,
  unusedInMachine,
  versionUnknown,
  walkLimit,
  wrongDimension,
  wrongKind,
  yieldWithoutRenewal,
];
