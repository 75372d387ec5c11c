import type { Drill } from '../../sim-core/index.ts';
import type { GuideRules, GuideStep, GuideView } from './guidance.ts';

/** Heights of the tip, mm, from which each kind of start is struck; an edge is struck at the height of the cut. */
const PIERCE_HEIGHT_MM: Record<Exclude<Drill['start'], 'edge'>, { low: number; high: number }> = {
  'contact-pierce': { low: 0, high: 0.6 },
  'rolling-pierce': { low: 1.5, high: 4.5 },
  'stand-off-pierce': { low: 9, high: 14 },
};
/** Lean with which a rolling pierce begins, degrees. At 32 it would throw back several times as much as at 45. */
const ROLL_LEAN_DEG = { low: 40, high: 58 } as const;
/** Close enough to the start to think of striking the arc; a pierce has no edge to feel for. */
const NEAR_START_MM = 5;
const NEAR_PIERCE_MM = 3;

/** What to do before the arc. */
export function beforeTheArc(rules: GuideRules, view: GuideView): GuideStep {
  const { start } = rules;
  const away = Math.hypot(view.xMm - rules.startXMm, view.yMm - rules.startYMm);
  if (away > (start === 'edge' ? NEAR_START_MM : NEAR_PIERCE_MM)) return 'approach';
  if (start === 'edge') {
    if (view.heightMm > rules.standOffHighMm) return 'lower';
    if (view.heightMm < rules.standOffLowMm - 0.3) return 'raise';
    return view.offLeanDeg > rules.leanDeg * 1.5 ? poseStep(rules) : 'strike';
  }
  const height = PIERCE_HEIGHT_MM[start];
  if (start === 'rolling-pierce') {
    if (view.leanDeg < ROLL_LEAN_DEG.low) return 'lean-over';
    if (view.leanDeg > ROLL_LEAN_DEG.high) return 'lean-less';
  } else if (view.leanDeg > rules.leanDeg * 1.5) return 'upright';
  if (view.heightMm > height.high) return start === 'contact-pierce' ? 'touch' : 'lower-pierce';
  if (view.heightMm < height.low) return 'raise-pierce';
  return 'strike';
}

/** What to do with the arc on and the plate not yet through; null where the wait is over. */
export function whileBlind(rules: GuideRules, view: GuideView, through: boolean): GuideStep | null {
  if (rules.start === 'rolling-pierce' && view.leanDeg > rules.leanDeg * 1.5) return 'roll';
  if (!through) return 'wait-through';
  if (rules.start === 'stand-off-pierce' && view.heightMm > rules.standOffHighMm + 0.5) return 'come-down';
  return null;
}

/** How to hold the handle: upright, or as the drill asks. */
export function poseStep(rules: GuideRules): GuideStep {
  if (rules.bevelDeg !== 0) return 'set-bevel';
  return rules.travelAngleDeg === null ? 'upright' : rules.travelAngleDeg.high <= 0 ? 'push-lean' : 'set-lean';
}

/** Heights that a start is struck from, mm. */
export function strikeHeightMm(drill: Pick<Drill, 'start' | 'tolerances'>): { low: number; high: number } {
  return drill.start === 'edge' ? drill.tolerances.standOffMm : PIERCE_HEIGHT_MM[drill.start];
}
