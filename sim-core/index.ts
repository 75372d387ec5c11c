// The only public door of the core. Each room adds its line here.

export { applyFaults } from './drill/apply-faults.ts';
export { CAUTION_IDS, type CautionId } from './drill/caution-ids.ts';
export { type CouponResult, runCoupon } from './drill/coupon.ts';
export { COUPON_LENGTH_MM, COUPON_WIDTH_MM, type CouponOptions } from './drill/coupon-cut.ts';
export { COMPLETE_SHARE } from './drill/coupon-probe.ts';
export type { CutCondition } from './drill/cut-condition.ts';
export {
  type Diagnosis,
  diagnosisSchema,
  REMEDY_FOR,
  REMEDY_IDS,
  type RemedyId,
  RIG_FAULT_IDS,
  type RigFaultId,
} from './drill/diagnosis.ts';
export { conditionOfDrill, windowOfDrill } from './drill/drill-window.ts';
export { checkFeasibility } from './drill/feasibility.ts';
export { type GougeOptions, type GougeResult, gougeCoupon } from './drill/gouge-coupon.ts';
export { guidedOffsetMm, guideOffsetMm, holdToGuide } from './drill/guide.ts';
export { ACCELERATION_LIMIT, type HandScale } from './drill/hand-scale.ts';
export type { HandHabits, HandScript, HandStep } from './drill/hand-script-schema.ts';
export { MEASURE_IDS, type MeasureId, OUTCOME_MEASURES } from './drill/measure-ids.ts';
export { DRILL_TEXT_LIMIT, parseDrill } from './drill/parse-drill.ts';
export { HAND_TEXT_LIMIT, parseHandScript } from './drill/parse-hand-script.ts';
export type { ParseProblem, ParseResult } from './drill/parse-problem.ts';
export { partSide } from './drill/part-side.ts';
export { type PathFoot, type PathGeometry, type PathPlace, type PathTurn, pathGeometry } from './drill/path-geometry.ts';
export {
  PIERCE_METHODS,
  PIERCE_POSE,
  type PierceMethod,
  type PierceResult,
  pierceCoupon,
  ROLL_S,
} from './drill/pierce-coupon.ts';
export { piercingThicknessMm } from './drill/piercing.ts';
export {
  checkRig,
  RIG_FINDING_IDS,
  type RigFinding,
  type RigFindingId,
  type RigSeverity,
  stopsRun,
} from './drill/rig-check.ts';
export {
  neutralChoices,
  type RigChoices,
  rigChoicesSchema,
  rightChoices,
  rightClampSpot,
  rightGuideOffsetMm,
} from './drill/rig-choices.ts';
export { RIG_RULE_SOURCES, RIG_RULES, type RigRuleSourceId } from './drill/rig-rules.ts';
export type { ClampSpot, DrillRig, DrillSite } from './drill/rig-schema.ts';
export { HAND_KINDS, type HandKind, type KeptScore } from './drill/run-file-schema.ts';
export { scanJson } from './drill/scan-json.ts';
export {
  DRILL_FORMAT,
  DRILL_FORMAT_VERSION,
  type Drill,
  type DrillGuide,
  type DrillIntended,
  type DrillPath,
  type DrillRubric,
  type DrillTolerances,
  drillSchema,
  TECHNIQUES,
  type Technique,
} from './drill/schema.ts';
export { setupFromDrill } from './drill/setup-from-drill.ts';
export { RATED_SHARE, severingThicknessMm } from './drill/severing.ts';
export {
  primeSpeedWindow,
  SPARK_BAND_DEG,
  type SpeedWindow,
  speedWindow,
  speedWindowKey,
} from './drill/speed-window.ts';
export { FAULT_HAND_IDS, FAULT_HANDS, type FaultHand, type FaultHandId, faultHand, faultsOf } from './hand/fault-hands.ts';
export type { HandWindow } from './hand/hand-window.ts';
export { referenceHand } from './hand/reference-hand.ts';
export { createScriptedHand, type HandSight, type ScriptedHand } from './hand/scripted-hand.ts';
export { MATERIAL_IDS, type MaterialId } from './materials/material-id.ts';
export { MATERIALS } from './materials/materials.ts';
export { fromBase64, toBase64 } from './math/base-64.ts';
export { sha256Hex } from './math/sha-256.ts';
export type { EnergyLedger } from './physics/energy-ledger.ts';
export { RIGS, type Rig, smallestRigFor } from './physics/rig.ts';
export * from './physics/rig-fit.ts';
export { type TorchFitness, torchFitness } from './physics/torch-fitness.ts';
export * from './physics/wear.ts';
export { type CutFaces, type FaceReading, readFaces } from './quality/cut-faces.ts';
export { dragFromSparkMm } from './quality/drag-line.ts';
export { DROSS_KINDS, type Dross, type DrossKind, estimateDross } from './quality/dross.ts';
export { RZ5_RANGES, rz5LimitUm, U_RANGES, uLimitMm } from './quality/iso-9013.ts';
export {
  type KerfQuality,
  kerfQuality,
  type PlaceState,
  type QualityOptions,
  type QualityPlace,
} from './quality/kerf-quality.ts';
export { type MetalReader, metalOf } from './quality/metal-reader.ts';
export {
  type EndDefect,
  type QualityStretch,
  type QualitySummary,
  qualityRows,
  stretchQuality,
  type UncutSpot,
} from './quality/quality-summary.ts';
export {
  COST_LINES,
  type CostLine,
  type CostLineId,
  type Prices,
  plateMassKg,
  type RunCost,
  type RunUse,
  runCost,
} from './quality/run-cost.ts';
export { topDepthMm } from './quality/top-depth.ts';
export * from './run/hand-input.ts';
export * from './run/impossible-motion.ts';
export { createReplay, KEYFRAME_TICKS, type Recording, type Replay } from './run/replay.ts';
export { type RigAnswers, rightAnswers } from './run/rig-answers.ts';
export {
  decodeRunFile,
  encodeRunFile,
  type ReadRunFile,
  RUN_TEXT_LIMIT,
  type RunFile,
  type RunFileResult,
} from './run/run-file.ts';
export { runFileOf } from './run/run-file-of.ts';
export { type Resimulated, resimulate } from './run/run-file-resimulate.ts';
export { readTrace, type StoredTrace, storeTrace, TRACE_HZ } from './run/run-file-trace.ts';
export { sameJson, type Verdict, type Verification, verifyRunFile } from './run/run-file-verify.ts';
export { type CompletedRun, runAnyHand, runHand } from './run/run-hand.ts';
export { appendSample, createSamples } from './run/samples.ts';
export { createSimulation, type KeyedSimulation } from './run/simulation.ts';
export * from './run/types.ts';
export {
  type OverruledMark,
  reasonsAfterOverruling,
  scoreAfterOverruling,
  type WeighedScore,
} from './scoring/overruled-score.ts';
export { handlingWorth } from './scoring/rubric.ts';
export * from './scoring/score.ts';
export { type ScoreContext, scoreContextOf } from './scoring/score-context.ts';
export { scoreRun } from './scoring/score-run.ts';
export { longestUncutMm, SEVERED_GAP_MM } from './scoring/severance.ts';
