import { RIGS } from '../physics/rig.ts';
import { dialOf, NOZZLES, PART_IDS, SHIELDS, TORCH_BAR, torchBar } from '../physics/rig-fit.ts';
import { guideOffsetMm } from './guide.ts';
import type { RigChoices } from './rig-choices.ts';
import { RIG_RULES, type RigRuleSourceId } from './rig-rules.ts';
import type { Drill } from './schema.ts';

/** What can be wrong with a rig, a place or a person before the arc, in the order in which it is told. */
export const RIG_FINDING_IDS = [
  'no-eye-protection',
  'shade-too-light',
  'no-gloves',
  'no-jacket',
  'no-hearing-protection',
  'no-respirator',
  'closed-container',
  'coating-left',
  'no-ventilation',
  'ventilation-too-weak',
  'combustibles-left',
  'no-fire-watch',
  'fire-watch-short',
  'trigger-guard-open',
  'part-missing',
  'parts-out-of-order',
  'wrong-mode',
  'wrong-nozzle',
  'wrong-shield',
  'current-off',
  'pressure-low',
  'pressure-high',
  'trap-not-drained',
  'no-clamp',
  'clamp-on-coating',
  'clamp-on-drop',
  'guide-left-off',
  'guide-offset',
] as const;
export type RigFindingId = (typeof RIG_FINDING_IDS)[number];

/**
 * stops: unsafe, the run may not start. wrong: it may, and the arc shows it. note: allowed, and better otherwise.
 */
export type RigSeverity = 'stops' | 'wrong' | 'note';

export interface RigFinding {
  id: RigFindingId;
  severity: RigSeverity;
  /** Where the rule stands: a published one, or the yard's own practice. */
  sourceId: RigRuleSourceId;
}

/** Farthest from the right setting that the current may stand, as a share of it; the guide, mm. Design defaults. */
const CURRENT_OFF_SHARE = 0.1;
const GUIDE_OFF_MM = 0.3;

/** What is wrong with the choices for this drill, worst first; empty where all is as it should be. */
export function checkRig(drill: Drill, choices: RigChoices): RigFinding[] {
  const findings = [...unsafe(drill, choices), ...misfitted(drill, choices)];
  return SEVERITIES.flatMap((severity) => findings.filter((finding) => finding.severity === severity));
}

const SEVERITIES: readonly RigSeverity[] = ['stops', 'wrong', 'note'];

/** True where a finding is of the kind that lets no arc start. */
export function stopsRun(findings: readonly RigFinding[]): boolean {
  return findings.some(({ severity }) => severity === 'stops');
}

function unsafe(drill: Drill, choices: RigChoices): RigFinding[] {
  const { site, plate } = drill;
  const { protection, ventilation } = choices;
  const found: RigFinding[] = [];
  const add = (when: boolean, id: RigFindingId, severity: RigSeverity, sourceId: RigRuleSourceId): void => {
    if (when) found.push({ id, severity, sourceId });
  };
  add(protection.shade === null, 'no-eye-protection', 'stops', 'shade-table');
  add(protection.shade !== null && protection.shade < RIG_RULES.leastShade, 'shade-too-light', 'stops', 'shade-table');
  add(!protection.gloves, 'no-gloves', 'stops', 'clothing');
  add(!protection.jacket, 'no-jacket', 'stops', 'clothing');
  add(!protection.hearing, 'no-hearing-protection', 'stops', 'noise');

  const coated = site.coating !== 'none' && !choices.coatingRemoved;
  const fumes = site.coating === 'zinc' || plate.material === 'stainless-steel';
  add(site.closedContainer && !choices.containerMadeSafe, 'closed-container', 'stops', 'containers');
  add(coated, 'coating-left', 'stops', 'coatings');
  const confined = site.place === 'small-room';
  const needsExtraction = site.place !== 'outdoors' && (confined || fumes);
  add(needsExtraction && ventilation === 'none', 'no-ventilation', 'stops', confined ? 'ventilation-space' : 'ventilation-metal');
  add(
    needsExtraction && ventilation === 'doors',
    'ventilation-too-weak',
    'stops',
    confined ? 'ventilation-space' : 'ventilation-metal',
  );
  add(site.place === 'hall' && !fumes && ventilation === 'none', 'no-ventilation', 'note', 'ventilation-space');
  add(fumes && !protection.respirator && ventilation !== 'extraction', 'no-respirator', 'note', 'yard-practice');

  const near = site.combustiblesWithinM !== null && site.combustiblesWithinM <= RIG_RULES.clearanceM;
  add(near && choices.combustibles === 'left', 'combustibles-left', 'stops', 'fire-distance');
  // What was carried away cannot burn; what was covered stays within reach of a spark.
  const watched = near && choices.combustibles !== 'cleared';
  add(watched && choices.fireWatchMin < RIG_RULES.fireWatchMin, 'no-fire-watch', 'stops', 'fire-watch');
  add(
    watched && choices.fireWatchMin >= RIG_RULES.fireWatchMin && choices.fireWatchMin < RIG_RULES.fireWatchTaughtMin,
    'fire-watch-short',
    'note',
    'fire-watch-taught',
  );
  add(!choices.triggerGuardClosed, 'trigger-guard-open', 'stops', 'yard-practice');
  return found;
}

function misfitted(drill: Drill, choices: RigChoices): RigFinding[] {
  const { rig, guide } = drill;
  const found: RigFinding[] = [];
  const add = (when: boolean, id: RigFindingId, severity: RigSeverity = 'wrong'): void => {
    if (when) found.push({ id, severity, sourceId: 'rig-data' });
  };
  const missing = PART_IDS.some((part) => !choices.stack.includes(part));
  add(missing, 'part-missing');
  add(!missing && choices.stack.some((part, place) => part !== PART_IDS[place]), 'parts-out-of-order');
  add(choices.mode !== rig.mode, 'wrong-mode');
  const nozzle = NOZZLES[choices.nozzle];
  const kindDiffers = (choices.nozzle === 'gouging') !== (rig.mode === 'gouge');
  add(kindDiffers || rig.currentA < nozzle.lowA || rig.currentA > nozzle.highA, 'wrong-nozzle');
  const mayTouch = SHIELDS[choices.shield].mayTouch;
  add((choices.shield === 'wide') !== (rig.shield === 'wide') || (SHIELDS[rig.shield].mayTouch && !mayTouch), 'wrong-shield');
  const { lowA, highA } = dialOf(RIGS[rig.class], rig.mode);
  const off = choices.currentA < rig.currentA ? rig.currentA - choices.currentA : choices.currentA - rig.currentA;
  add(off > CURRENT_OFF_SHARE * rig.currentA || choices.currentA < lowA || choices.currentA > highA, 'current-off');
  const bar = torchBar({ supplyBar: choices.supplyBar, hoseM: rig.hoseM, hoseLeakShare: 0 });
  add(bar < TORCH_BAR.low, 'pressure-low');
  add(bar > TORCH_BAR.high, 'pressure-high');
  add(!choices.waterTrapDrained, 'trap-not-drained');
  const spot = rig.clampSpots.find(({ id }) => id === choices.clampSpot);
  add(!spot, 'no-clamp');
  if (spot) {
    add(spot.surface !== 'bare', 'clamp-on-coating');
    add(spot.onDrop, 'clamp-on-drop');
  }
  if (guide.kind !== 'freehand') {
    add(choices.guideOffsetMm === null, 'guide-left-off');
    // What is right depends on the front that was really fitted.
    const offMm = choices.guideOffsetMm === null ? 0 : choices.guideOffsetMm - guideOffsetMm(choices.shield);
    add(offMm > GUIDE_OFF_MM || offMm < -GUIDE_OFF_MM, 'guide-offset');
  }
  return found;
}
