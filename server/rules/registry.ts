/**
 * Every rule, in the order of the codes. `npm run new-rule CODE` adds its lines here.
 */
import { adapterWithoutSetting } from "./adapter-without-setting";
import { angleGaugeMissing } from "./angle-gauge-missing";
import { badNumber } from "./bad-number";
import { bareNumber } from "./bare-number";
import { blockNotClosed } from "./block-not-closed";
import { blockNotHere } from "./block-not-here";
import { braceMissing } from "./brace-missing";
import { braceStray } from "./brace-stray";
import { consumableUndeclared } from "./consumable-undeclared";
import { decimalComma } from "./decimal-comma";
import { duplicateName } from "./duplicate-name";
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
import { outOfPlace } from "./out-of-place";
import { outsideProject } from "./outside-project";
import { rangesGap } from "./ranges-gap";
import { rangesOverlap } from "./ranges-overlap";
import { retryNeedsMoreParts } from "./retry-needs-more-parts";
import { saidTwice } from "./said-twice";
import { tooDeep } from "./too-deep";
import { toolOutOfRange } from "./tool-out-of-range";
import { toolUndeclared } from "./tool-undeclared";
import { toolUnused } from "./tool-unused";
import type { Rule } from "./types";
import { unitsDisagree } from "./units-disagree";
import { unknownName } from "./unknown-name";
import { unknownUnit } from "./unknown-unit";
import { unreadableFile } from "./unreadable-file";
import { unusedDeclaration, unusedInMachine } from "./unused-declaration";
import { versionUnknown } from "./version-unknown";
import { wrongDimension } from "./wrong-dimension";
import { wrongKind } from "./wrong-kind";

export const RULES: readonly Rule[] = [
  adapterWithoutSetting,
  angleGaugeMissing,
  badNumber,
  bareNumber,
  blockNotClosed,
  blockNotHere,
  braceMissing,
  braceStray,
  consumableUndeclared,
  decimalComma,
  duplicateName,
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
  outOfPlace,
  outsideProject,
  rangesGap,
  rangesOverlap,
  retryNeedsMoreParts,
  saidTwice,
  tooDeep,
  toolOutOfRange,
  toolUndeclared,
  toolUnused,
  unitsDisagree,
  unknownName,
  unknownUnit,
  unreadableFile,
  unusedDeclaration,
  unusedInMachine,
  versionUnknown,
  wrongDimension,
  wrongKind,
];
