/**
 * Every rule, in the order of the codes. `npm run new-rule CODE` adds its lines here.
 */
import { adapterWithoutSetting } from "./adapter-without-setting";
import { angleGaugeMissing } from "./angle-gauge-missing";
import { angleTwice } from "./angle-twice";
import { angleWithoutTorque } from "./angle-without-torque";
import { badNumber } from "./bad-number";
import { bareNumber } from "./bare-number";
import { beltCannotClose } from "./belt-cannot-close";
import { beltCrossesItself } from "./belt-crosses-itself";
import { beltTooLong } from "./belt-too-long";
import { beltTooShort } from "./belt-too-short";
import { bendTooTight } from "./bend-too-tight";
import { blockNotClosed } from "./block-not-closed";
import { blockNotHere } from "./block-not-here";
import { blockedBy } from "./blocked-by";
import { braceMissing } from "./brace-missing";
import { braceStray } from "./brace-stray";
import { cautionIncomplete } from "./caution-incomplete";
import { cautionLate } from "./caution-late";
import { cautionMissing } from "./caution-missing";
import { cautionPassedBy } from "./caution-passed-by";
import { cautionTooWeak } from "./caution-too-weak";
import { checkWithoutOutcome } from "./check-without-outcome";
import { clipSkipped } from "./clip-skipped";
import { conditionNeverAsked } from "./condition-never-asked";
import { connectionLeftOpen } from "./connection-left-open";
import { consumableUndeclared } from "./consumable-undeclared";
import { countDiffers } from "./count-differs";
import { curedTooSoon } from "./cured-too-soon";
import { decimalComma } from "./decimal-comma";
import { directionUnsaid } from "./direction-unsaid";
import { doneAlready } from "./done-already";
import { duplicateName } from "./duplicate-name";
import { endJobLeaves } from "./end-job-leaves";
import { endlessRepeat } from "./endless-repeat";
import { endsOtherwise } from "./ends-otherwise";
import { fastenerStillHolds } from "./fastener-still-holds";
import { fewTeethInMesh } from "./few-teeth-in-mesh";
import { fingerTightLeft } from "./finger-tight-left";
import { forbiddenToolUsed } from "./forbidden-tool-used";
import { holesOverlap } from "./holes-overlap";
import { hotColdUnsaid } from "./hot-cold-unsaid";
import { includeLoop } from "./include-loop";
import { jumpIntoBlock } from "./jump-into-block";
import { kitItemMissing } from "./kit-item-missing";
import { kitItemUnused } from "./kit-item-unused";
import { layOnDiffers } from "./lay-on-differs";
import { leftHandUnsaid } from "./left-hand-unsaid";
import { leftRunning } from "./left-running";
import { limitsEmpty } from "./limits-empty";
import { limitsReversed } from "./limits-reversed";
import { lineTooLong } from "./line-too-long";
import { lineTooShort } from "./line-too-short";
import { loadOverRating } from "./load-over-rating";
import { longAndShortMixed } from "./long-and-short-mixed";
import { lookAlikeLetter, lookAlikeName } from "./look-alike-letter";
import { markCannotAlign } from "./mark-cannot-align";
import { measuredBeforeReachable } from "./measured-before-reachable";
import { missingFile } from "./missing-file";
import { noWayToEnd } from "./no-way-to-end";
import { notDrained } from "./not-drained";
import { notRefilled } from "./not-refilled";
import { notToldApart } from "./not-told-apart";
import { notUnderstood } from "./not-understood";
import { nothingHolds } from "./nothing-holds";
import { noughtOrLess } from "./nought-or-less";
import { oddTolerance } from "./odd-tolerance";
import { oldPartRefitted } from "./old-part-refitted";
import { openTimePassed } from "./open-time-passed";
import { orderNotCrosswise, orderNotCrosswiseAtAct } from "./order-not-crosswise";
import { orderRepeats, orderRepeatsAtAct } from "./order-repeats";
import { orderSkips, orderSkipsAtAct } from "./order-skips";
import { outOfPlace } from "./out-of-place";
import { outcomeImpossible } from "./outcome-impossible";
import { outcomesOverlap } from "./outcomes-overlap";
import { outsideProject } from "./outside-project";
import { ownPlaceLost } from "./own-place-lost";
import { partFittedTwice } from "./part-fitted-twice";
import { partLeftOff } from "./part-left-off";
import { pinTakesTorque } from "./pin-takes-torque";
import { pulleyNotTouched } from "./pulley-not-touched";
import { pulleysOverlap } from "./pulleys-overlap";
import { rangesGap } from "./ranges-gap";
import { rangesOverlap } from "./ranges-overlap";
import { ratioDiffersFromTeeth } from "./ratio-differs-from-teeth";
import { removedTwice } from "./removed-twice";
import { repeatSkipsUndo } from "./repeat-skips-undo";
import { retryNeedsMoreParts } from "./retry-needs-more-parts";
import { runLoopsBack, runLoopsBackAtAct } from "./run-loops-back";
import { runMisses } from "./run-misses";
import { runRepeats, runRepeatsLaidOn } from "./run-repeats";
import { saidTwice } from "./said-twice";
import { secondPersonAbsent } from "./second-person-absent";
import { slippedDecimal } from "./slipped-decimal";
import { stageOutOfOrder } from "./stage-out-of-order";
import { startedTooSoon } from "./started-too-soon";
import { stillMissing } from "./still-missing";
import { supportLeft } from "./support-left";
import { supportMissing } from "./support-missing";
import { temporaryLeftIn } from "./temporary-left-in";
import { tensionerOnTightStrand } from "./tensioner-on-tight-strand";
import { testerNotProved } from "./tester-not-proved";
import { threadStateUnsaid } from "./thread-state-unsaid";
import { threadUnknown } from "./thread-unknown";
import { tightenedBeforeFitted } from "./tightened-before-fitted";
import { tighteningMissing } from "./tightening-missing";
import { tooDeep } from "./too-deep";
import { toolLeftOn } from "./tool-left-on";
import { toolOutOfRange } from "./tool-out-of-range";
import { toolUndeclared } from "./tool-undeclared";
import { toolUnused } from "./tool-unused";
import { torqueFalls } from "./torque-falls";
import { torqueTooHigh } from "./torque-too-high";
import { torqueTooLow } from "./torque-too-low";
import { turnedWithBeltOff } from "./turned-with-belt-off";
import { turnedWithPinIn } from "./turned-with-pin-in";
import { turnedWrongWay } from "./turned-wrong-way";
import type { Rule } from "./types";
import { unitsDisagree } from "./units-disagree";
import { unknownHazard } from "./unknown-hazard";
import { unknownName } from "./unknown-name";
import { unknownUnit } from "./unknown-unit";
import { unreachableCheck } from "./unreachable-check";
import { unreachableStep } from "./unreachable-step";
import { unreadableFile } from "./unreadable-file";
import { unusedDeclaration, unusedInMachine } from "./unused-declaration";
import { usedBoltRefitted } from "./used-bolt-refitted";
import { usedNotRecorded } from "./used-not-recorded";
import { verifiedThenDisturbed } from "./verified-then-disturbed";
import { versionUnknown } from "./version-unknown";
import { waitMissing } from "./wait-missing";
import { walkLimit } from "./walk-limit";
import { wayRoundUnsaid } from "./way-round-unsaid";
import { wrongDimension } from "./wrong-dimension";
import { wrongKind } from "./wrong-kind";
import { wrongSide } from "./wrong-side";
import { wrongWay, wrongWayAtAct } from "./wrong-way";
import { yieldWithoutRenewal } from "./yield-without-renewal";

export const RULES: readonly Rule[] = [
  adapterWithoutSetting,
  angleGaugeMissing,
  angleTwice,
  angleWithoutTorque,
  badNumber,
  bareNumber,
  beltCannotClose,
  beltCrossesItself,
  beltTooLong,
  beltTooShort,
  bendTooTight,
  blockNotClosed,
  blockNotHere,
  blockedBy,
  braceMissing,
  braceStray,
  cautionIncomplete,
  cautionLate,
  cautionMissing,
  cautionPassedBy,
  cautionTooWeak,
  checkWithoutOutcome,
  clipSkipped,
  conditionNeverAsked,
  connectionLeftOpen,
  consumableUndeclared,
  countDiffers,
  curedTooSoon,
  decimalComma,
  directionUnsaid,
  doneAlready,
  duplicateName,
  endJobLeaves,
  endlessRepeat,
  endsOtherwise,
  fastenerStillHolds,
  fewTeethInMesh,
  fingerTightLeft,
  forbiddenToolUsed,
  holesOverlap,
  hotColdUnsaid,
  includeLoop,
  jumpIntoBlock,
  kitItemMissing,
  kitItemUnused,
  layOnDiffers,
  leftHandUnsaid,
  leftRunning,
  limitsEmpty,
  limitsReversed,
  lineTooLong,
  lineTooShort,
  loadOverRating,
  longAndShortMixed,
  lookAlikeLetter,
  lookAlikeName,
  markCannotAlign,
  measuredBeforeReachable,
  missingFile,
  noWayToEnd,
  notDrained,
  notRefilled,
  notToldApart,
  notUnderstood,
  nothingHolds,
  noughtOrLess,
  oddTolerance,
  oldPartRefitted,
  openTimePassed,
  orderNotCrosswise,
  orderNotCrosswiseAtAct,
  orderRepeats,
  orderRepeatsAtAct,
  orderSkips,
  orderSkipsAtAct,
  outOfPlace,
  outcomeImpossible,
  outcomesOverlap,
  outsideProject,
  ownPlaceLost,
  partFittedTwice,
  partLeftOff,
  pinTakesTorque,
  pulleyNotTouched,
  pulleysOverlap,
  rangesGap,
  rangesOverlap,
  ratioDiffersFromTeeth,
  removedTwice,
  repeatSkipsUndo,
  retryNeedsMoreParts,
  runLoopsBack,
  runLoopsBackAtAct,
  runMisses,
  runRepeats,
  runRepeatsLaidOn,
  saidTwice,
  secondPersonAbsent,
  slippedDecimal,
  stageOutOfOrder,
  startedTooSoon,
  stillMissing,
  supportLeft,
  supportMissing,
  temporaryLeftIn,
  tensionerOnTightStrand,
  testerNotProved,
  threadStateUnsaid,
  threadUnknown,
  tightenedBeforeFitted,
  tighteningMissing,
  tooDeep,
  toolLeftOn,
  toolOutOfRange,
  toolUndeclared,
  toolUnused,
  torqueFalls,
  torqueTooHigh,
  torqueTooLow,
  turnedWithBeltOff,
  turnedWithPinIn,
  turnedWrongWay,
  unitsDisagree,
  unknownHazard,
  unknownName,
  unknownUnit,
  unreachableCheck,
  unreachableStep,
  unreadableFile,
  unusedDeclaration,
  unusedInMachine,
  usedBoltRefitted,
  usedNotRecorded,
  verifiedThenDisturbed,
  versionUnknown,
  waitMissing,
  walkLimit,
  wayRoundUnsaid,
  wrongDimension,
  wrongKind,
  wrongSide,
  wrongWay,
  wrongWayAtAct,
  yieldWithoutRenewal,
];
