import type { Drill, DrillIntended } from '../../sim-core/index.ts';
import { beforeTheArc, poseStep, whileBlind } from './start-guidance.ts';

/**
 * What to do next, from what the torch, the arc and the metal are doing now. Pure: the bench feeds it a view some ten times a
 * second and shows the sentence of the step it names.
 */
export const GUIDE_STEPS = [
  'approach',
  'lower',
  'raise',
  'touch',
  'lower-pierce',
  'raise-pierce',
  'lean-over',
  'lean-less',
  'upright',
  'set-bevel',
  'push-lean',
  'set-lean',
  'strike',
  'pilot',
  'no-metal',
  'pull-again',
  'wait-through',
  'roll',
  'come-down',
  'move',
  'cross-gap',
  'on-line',
  'slower',
  'faster',
  'lower-cutting',
  'raise-cutting',
  'cut-lost',
  'finish',
  'close',
  'release',
  'next-pass',
  'arc-out',
  'done',
] as const;
export type GuideStep = (typeof GUIDE_STEPS)[number];

export interface GuideView {
  xMm: number;
  yMm: number;
  heightMm: number;
  /** Lean of the handle from upright, and from how the drill asks it to be held, degrees. */
  leanDeg: number;
  offLeanDeg: number;
  trigger: boolean;
  arc: 'off' | 'pre-flow' | 'pilot' | 'transferred' | 'post-flow';
  /** Deepest open share of the thickness under the arc. */
  penetration: number;
  underMm3PerS: number;
  topMm3PerS: number;
  speedMmPerS: number;
  /** Distance along the line of its point nearest to the tip, and how far off it the tip is. */
  alongMm: number;
  offLineMm: number;
}

export interface GuideRules {
  start: Drill['start'];
  finish: Drill['finish'];
  bevelDeg: number;
  travelAngleDeg: DrillIntended['travelAngleDeg'];
  /** A groove or a mark: the arc is not meant to come through. */
  surfaceWork: boolean;
  /** The plate has openings that the arc has to cross. */
  openings: boolean;
  passes: number;
  startXMm: number;
  startYMm: number;
  pathLengthMm: number;
  standOffLowMm: number;
  standOffHighMm: number;
  leanDeg: number;
  offLineMm: number;
  /** Window of this metal and current; null while it is not known. */
  speedLowMmPerS: number | null;
  speedHighMmPerS: number | null;
}

export interface Guide {
  readonly step: GuideStep;
  /** Share of the line that has been travelled with the arc on, 0 to 1. */
  readonly progress: number;
  /** Passes along the line that are behind the hand. */
  readonly passesDone: number;
  /** True once the line is finished and the trigger is up. */
  readonly finished: boolean;
  update(view: GuideView, nowMs: number): GuideStep;
}

/** An arc that got no farther than this has only been tried. */
const NEAR_START_MM = 5;
/** From here on the end is announced. */
const NEAR_END_MM = 14;
const AT_END_MM = 0.8;
/** A sentence stays at least this long, or nobody can read it. Changes of the arc itself are told at once. */
const HOLD_MS = 700;
/** The pilot has burnt this long and found no metal. */
const PILOT_PATIENCE_MS = 900;
/** Advice on speed goes by the speed of about this long, not by a twitch of the hand. */
const SPEED_MEMORY_MS = 350;
/** A held trigger with no gas and no arc has been dead this long. */
const DEAD_PATIENCE_MS = 500;
const OPEN = 0.985;
/** An arc that stands at an edge and has melted all it reaches throws nothing more after this long: it is time to move. */
const SPENT_MS = 2500;

const AT_ONCE: ReadonlySet<GuideStep> = new Set([
  'pilot',
  'wait-through',
  'roll',
  'come-down',
  'move',
  'cut-lost',
  'arc-out',
  'release',
  'next-pass',
  'done',
]);

export function createGuide(rules: GuideRules): Guide {
  let step: GuideStep = 'approach';
  let sinceMs = Number.NEGATIVE_INFINITY;
  let struck = false;
  let opened = false;
  let settled = false;
  let passesDone = 0;
  let farthestMm = 0;
  let burnt = false;
  let pilotSinceMs: number | null = null;
  let deadSinceMs: number | null = null;
  let spentSinceMs: number | null = null;
  let finished = false;
  let evenSpeed = 0;
  let lastMs = Number.NaN;

  function cutting(view: GuideView): GuideStep {
    if (!settled) {
      const wait = rules.surfaceWork ? null : whileBlind(rules, view, opened);
      if (wait !== null) return wait;
      settled = true;
    }
    const remaining = rules.pathLengthMm - view.alongMm;
    if (remaining <= AT_END_MM) return 'release';
    const closed = view.penetration < 0.9 && view.underMm3PerS < view.topMm3PerS;
    if (!rules.surfaceWork && closed && view.topMm3PerS > 0) return 'cut-lost';
    if (view.offLineMm > rules.offLineMm * 1.6) return 'on-line';
    if (view.heightMm > rules.standOffHighMm + 0.5) return 'lower-cutting';
    if (view.heightMm < rules.standOffLowMm - 0.4) return 'raise-cutting';
    if (view.offLeanDeg > rules.leanDeg * 1.5) return poseStep(rules);
    if (rules.speedHighMmPerS !== null && evenSpeed > rules.speedHighMmPerS * 1.05) return 'slower';
    if (remaining < NEAR_END_MM && rules.finish === 'close') return 'close';
    if (remaining < NEAR_END_MM && !rules.surfaceWork) return 'finish';
    if (view.alongMm > 6 && rules.speedLowMmPerS !== null && evenSpeed < rules.speedLowMmPerS * 0.9) return 'faster';
    return 'move';
  }

  /** Over an edge there is open air beside the metal; a pierced hole, once open, may throw nothing more while the hand stands still. */
  function isThrough(view: GuideView, nowMs: number): boolean {
    if (view.penetration < OPEN) spentSinceMs = null;
    else if (rules.start !== 'edge' || view.underMm3PerS > 0) return true;
    else if (view.topMm3PerS > 0) spentSinceMs = null;
    else spentSinceMs ??= nowMs;
    return spentSinceMs !== null && nowMs - spentSinceMs > SPENT_MS;
  }

  function wanted(view: GuideView, nowMs: number): GuideStep {
    if (view.arc === 'transferred') {
      pilotSinceMs = null;
      struck = true;
      if (rules.surfaceWork || isThrough(view, nowMs)) opened = true;
      farthestMm = Math.max(farthestMm, view.alongMm);
      return cutting(view);
    }
    // On a slow display the arc may have gone the last stretch, and out over the edge, between two looks.
    if (burnt && opened) farthestMm = Math.max(farthestMm, view.alongMm);
    const atEnd = opened && farthestMm >= rules.pathLengthMm - AT_END_MM - rules.offLineMm;
    spentSinceMs = null;
    if (!view.trigger) {
      pilotSinceMs = null;
      deadSinceMs = null;
      if (atEnd && passesDone + 1 < rules.passes) {
        passesDone += 1;
        farthestMm = 0;
        struck = false;
        opened = false;
        return 'next-pass';
      }
      if (atEnd) {
        finished = true;
        return 'done';
      }
      // Where a cut goes on after a break the start is behind it: it is taken up again without a pierce.
      if (struck && farthestMm > NEAR_START_MM) return 'arc-out';
      settled = false;
      const next = beforeTheArc(rules, view);
      return passesDone > 0 && next === 'approach' ? 'next-pass' : next;
    }
    if (atEnd) return 'release';
    if (rules.openings && opened && view.arc !== 'off' && view.arc !== 'post-flow') return 'cross-gap';
    // A pilot that found nothing gives up, and the source waits for a fresh pull.
    if (view.arc === 'off' || view.arc === 'post-flow') {
      deadSinceMs ??= nowMs;
      if (nowMs - deadSinceMs > DEAD_PATIENCE_MS) return 'pull-again';
    } else deadSinceMs = null;
    if (view.arc === 'pilot') pilotSinceMs ??= nowMs;
    else pilotSinceMs = null;
    return pilotSinceMs !== null && nowMs - pilotSinceMs > PILOT_PATIENCE_MS ? 'no-metal' : 'pilot';
  }

  return {
    get step() {
      return step;
    },
    get progress() {
      return Math.min(1, Math.max(0, (passesDone + farthestMm / rules.pathLengthMm) / rules.passes));
    },
    get passesDone() {
      return passesDone;
    },
    get finished() {
      return finished;
    },
    update(view, nowMs) {
      const share = Number.isNaN(lastMs) ? 1 : 1 - Math.exp(-(nowMs - lastMs) / SPEED_MEMORY_MS);
      evenSpeed += (view.speedMmPerS - evenSpeed) * share;
      lastMs = nowMs;
      const next = wanted(view, nowMs);
      burnt = view.arc === 'transferred';
      if (next !== step && (AT_ONCE.has(next) || nowMs - sinceMs >= HOLD_MS)) {
        step = next;
        sinceMs = nowMs;
      }
      return step;
    },
  };
}
