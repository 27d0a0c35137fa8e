import { addedFaultIsDerived } from './circuit/added-fault-is-derived.ts';
import { bridgedPart } from './circuit/bridged-part.ts';
import { cavityTakenTwice } from './circuit/cavity-taken-twice.ts';
import { contradictsCircuit } from './circuit/contradicts-circuit.ts';
import { doesNotSettle } from './circuit/does-not-settle.ts';
import { dropWithoutLoad } from './circuit/drop-without-load.ts';
import { excludedWithoutReason } from './circuit/excluded-without-reason.ts';
import { faultValueWithoutUse } from './circuit/fault-value-without-use.ts';
import { floatingLead } from './circuit/floating-lead.ts';
import { goodSystemCanFail } from './circuit/good-system-can-fail.ts';
import { impossibleValue } from './circuit/impossible-value.ts';
import { leadInsidePlug, leadSideMissing, leadSideUnknown, pointNotInVariant } from './circuit/leads.ts';
import { limitsDifferFromTable } from './circuit/limits-differ-from-table.ts';
import { limitsNotDerived } from './circuit/limits-not-derived.ts';
import { notComputed } from './circuit/not-computed.ts';
import { ohmsOnLiveCircuit } from './circuit/ohms-on-live-circuit.ts';
import { outsideCurve } from './circuit/outside-curve.ts';
import { readingDependsOnPath } from './circuit/reading-depends-on-path.ts';
import { readsParallelPath } from './circuit/reads-parallel-path.ts';
import { scanContradictsCircuit } from './circuit/scan-contradicts-circuit.ts';
import { suppliesTiedTogether, supplyShorted } from './circuit/system-troubles.ts';
import { terminalWithoutWire } from './circuit/terminal-without-wire.ts';
import { wireToItself } from './circuit/wire-to-itself.ts';
import { apartWhenOperated, leftApart } from './conditions/left-apart.ts';
import { connectWhatIsTogether, disconnectWhatIsApart } from './conditions/needless-plugging.ts';
import { needsNotMet } from './conditions/needs-not-met.ts';
import { stateLostItsNeed } from './conditions/state-lost-its-need.ts';
import { stateNotPossible } from './conditions/state-not-possible.ts';
import { belowZeroNotHandled } from './limits/below-zero-not-handled.ts';
import { branchNeverTaken } from './limits/branch-never-taken.ts';
import { branchesOutOfOrder } from './limits/branches-out-of-order.ts';
import { finerThanMeter } from './limits/finer-than-meter.ts';
import { gapBetweenBranches } from './limits/gap-between-branches.ts';
import { limitsAndSpecification } from './limits/limits-and-specification.ts';
import { meterAnswers } from './limits/meter-answers.ts';
import { overLimitNotHandled } from './limits/over-limit-not-handled.ts';
import { overlappingBranches } from './limits/overlapping-branches.ts';
import { specificationOfOtherKind } from './limits/specification-of-other-kind.ts';
import { withinWithoutLimits } from './limits/within-without-limits.ts';
import { cyclicInclude } from './names/cyclic-include.ts';
import { duplicateName } from './names/duplicate-name.ts';
import { missingFile } from './names/missing-file.ts';
import { outsideWorkspace } from './names/outside-workspace.ts';
import { unknownName } from './names/unknown-name.ts';
import { unusedAllowance } from './names/unused-allowance.ts';
import { unusedCavity } from './names/unused-cavity.ts';
import { unusedCondition } from './names/unused-condition.ts';
import { unusedConnector } from './names/unused-connector.ts';
import { unusedPart } from './names/unused-part.ts';
import { unusedPin } from './names/unused-pin.ts';
import { unusedPoint } from './names/unused-point.ts';
import { unusedScanDatum } from './names/unused-scan-datum.ts';
import { unusedSpecification } from './names/unused-specification.ts';
import { unusedVariant } from './names/unused-variant.ts';
import { proofRules } from './proof/index.ts';
import type { Rule } from './rule.ts';
import { capacitorNotDischarged } from './safety/capacitor-not-discharged.ts';
import { hazardWithoutCaution } from './safety/hazard-without-caution.ts';
import { ohmmeterAtPyrotechnic } from './safety/ohmmeter-at-pyrotechnic.ts';
import { unmarkedHighVoltage } from './safety/unmarked-high-voltage.ts';
import { unpluggedWithPowerOn } from './safety/unplugged-with-power-on.ts';
import { sampleMissesEnding } from './samples/sample-misses-ending.ts';
import { unusedReading } from './samples/unused-reading.ts';
import { confirmationWithoutEnd } from './structure/confirmation-without-end.ts';
import { deadBranch } from './structure/dead-branch.ts';
import { endingNamesNothing } from './structure/ending-names-nothing.ts';
import { inspectionAfterMeasuring } from './structure/inspection-after-measuring.ts';
import { loopWithoutExit } from './structure/loop-without-exit.ts';
import { missingBranches } from './structure/missing-branches.ts';
import { missingConfirmation } from './structure/missing-confirmation.ts';
import { missingEntry } from './structure/missing-entry.ts';
import { missingSpecification } from './structure/missing-specification.ts';
import { noSteps } from './structure/no-steps.ts';
import { noSymptom } from './structure/no-symptom.ts';
import { noSystem } from './structure/no-system.ts';
import { readingMakesNoDifference } from './structure/reading-makes-no-difference.ts';
import { singleAnswer } from './structure/single-answer.ts';
import { targetNotInVariant } from './structure/target-not-in-variant.ts';
import { unreachableEnding } from './structure/unreachable-ending.ts';
import { unreachableStep } from './structure/unreachable-step.ts';
import { limitMistakes } from './text/limits.ts';
import { partMistakes } from './text/part-values.ts';
import { quantityMistakes } from './text/quantities.ts';
import { lineMistakes } from './text/reading.ts';
import { shapeMistakes } from './text/shape.ts';
import { yamlLayout } from './text/yaml-layout.ts';
import { yamlMarks } from './text/yaml-marks.ts';
import { yamlObstacles } from './text/yaml-obstacles.ts';

/** Every rule, in the order of the manual. A new one is added here and nowhere else. */
export const rules: readonly Rule[] = [
  // Text
  ...yamlMarks,
  ...yamlLayout,
  ...yamlObstacles,
  ...shapeMistakes,
  ...quantityMistakes,
  ...lineMistakes,
  ...partMistakes,
  // Names
  missingFile,
  outsideWorkspace,
  cyclicInclude,
  unknownName,
  duplicateName,
  unusedPart,
  unusedConnector,
  unusedCavity,
  unusedPoint,
  unusedPin,
  unusedScanDatum,
  unusedVariant,
  unusedCondition,
  unusedSpecification,
  unusedAllowance,
  // Structure
  noSystem,
  noSymptom,
  noSteps,
  missingEntry,
  unreachableStep,
  unreachableEnding,
  targetNotInVariant,
  missingBranches,
  deadBranch,
  singleAnswer,
  readingMakesNoDifference,
  loopWithoutExit,
  inspectionAfterMeasuring,
  missingSpecification,
  endingNamesNothing,
  missingConfirmation,
  confirmationWithoutEnd,
  // Limits
  ...limitMistakes,
  withinWithoutLimits,
  limitsAndSpecification,
  specificationOfOtherKind,
  gapBetweenBranches,
  belowZeroNotHandled,
  overLimitNotHandled,
  overlappingBranches,
  branchNeverTaken,
  branchesOutOfOrder,
  finerThanMeter,
  meterAnswers,
  // Circuit
  supplyShorted,
  suppliesTiedTogether,
  wireToItself,
  bridgedPart,
  cavityTakenTwice,
  terminalWithoutWire,
  excludedWithoutReason,
  addedFaultIsDerived,
  faultValueWithoutUse,
  leadInsidePlug,
  leadSideMissing,
  leadSideUnknown,
  pointNotInVariant,
  floatingLead,
  readsParallelPath,
  ohmsOnLiveCircuit,
  dropWithoutLoad,
  readingDependsOnPath,
  contradictsCircuit,
  goodSystemCanFail,
  limitsNotDerived,
  limitsDifferFromTable,
  scanContradictsCircuit,
  impossibleValue,
  doesNotSettle,
  notComputed,
  outsideCurve,
  // Conditions
  needsNotMet,
  stateNotPossible,
  stateLostItsNeed,
  leftApart,
  apartWhenOperated,
  connectWhatIsTogether,
  disconnectWhatIsApart,
  // Safety
  hazardWithoutCaution,
  unpluggedWithPowerOn,
  ohmmeterAtPyrotechnic,
  capacitorNotDischarged,
  unmarkedHighVoltage,
  // Proof
  ...proofRules,
  // Samples
  sampleMissesEnding,
  unusedReading,
];

export const ruleById: ReadonlyMap<string, Rule> = new Map(rules.map(rule => [rule.id, rule]));
