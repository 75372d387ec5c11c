import { pierceAnswer } from '../drill/pierce-answer.ts';
import { PIERCES } from '../drill/pierce-motions.ts';
import { atan, clamp, DEG_PER_RAD, round } from '../math/elementary.ts';
import { ARC_STATES, TICK_HZ } from '../run/types.ts';
import { lossByRatio, lossOutside, mostCostly } from './judge-ticks.ts';
import { lastBurning } from './last-burning.ts';
import type { Evidence, FaultId, FigureUnit, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

const PILOT = ARC_STATES.indexOf('pilot');
const TRANSFERRED = ARC_STATES.indexOf('transferred');

/**
 * Dose on the torch front before break-through, as multiples of the core's own for the motion asked for: full marks, none. It is
 * marked by its ratio: a torch held near takes tens of times as much, and of two bad pierces the worse must still be told.
 */
const DOSE_RIGHT_TIMES = 1.7;
const DOSE_ZERO_TIMES = 50;
/** What the core's own pierce throws back counts as no less than this, mJ: below it a dose is noise, and its ratio tells nothing. */
const DOSE_NOISE_MJ = 1;

/** What came back can cost so much of the measure: a hole that is through, however dirty, is worth more than none. */
const DOSE_SHARE = 0.7;

/** Share of the measure that a wrong pose while the hole is blind can cost. */
const POSE_SHARE = 0.6;

/** Marks for height reach 0 this far above the band, mm. Below it they reach 0 where the tip touches the plate. */
const HEIGHT_ZERO_MM = 3;

/** A leaned start must be leaned for this share of the core's own time to break-through and of the roll; later it may be upright. */
const LEANED_SHARE = 0.25;

/** There the least lean counts, and at this share of what is asked for at the least it is worth as little as none: nearly upright. */
const UPRIGHT_SHARE = 0.5;

/** Waiting on this much longer than tolerated brings the mark to 0, s. */
const LATE_ZERO_S = 2;
/** Share of the measure that waiting on can cost. */
const LATE_SHARE = 0.6;

/**
 * The pierce: how much molten metal comes back at the torch before the hole is through, against the core's own pierce of this
 * metal by the motion that the drill asks for; how the torch is held until then; and whether the hand waits for the hole.
 */
export function markPierce(input: MeasureInput): MeasureResult {
  const { trace, drill, samples } = input;
  const { start } = drill;
  const band = { low: null, high: DOSE_RIGHT_TIMES, unit: 'share' } as const;
  const answer = pierceAnswer(drill);
  if (start === 'edge' || answer === null || trace.transferIndex < 0) return { mark: 0, band, evidence: [] };
  const { arcState, blowbackMj, xMm, yMm, standOffMm } = samples.columns;
  const found: Evidence[] = [];
  const tell = (fault: FaultId, from: number, to: number, at: number, value: number, unit: FigureUnit, loss: number): void => {
    if (loss > 0)
      found.push({
        fromTick: from + 1,
        toTick: to + 1,
        xMm: xMm[at],
        yMm: yMm[at],
        value,
        unit,
        fault,
        lostMarks: 100 * loss,
      });
  };
  const from = trace.transferIndex;
  const left = trace.departIndex < 0 ? lastBurning(input) : trace.departIndex;
  const isThrough = trace.throughIndex >= 0 && trace.throughIndex <= left;
  const until = isThrough ? trace.throughIndex : left;

  if (!isThrough) {
    const blind = trace.departIndex >= 0 ? 'pierce.left-blind' : 'pierce.not-through';
    tell(blind, from, until, until, (until - from) / TICK_HZ, 's', 1);
  } else {
    const waitedS = (left - until) / TICK_HZ - leavingS(input);
    const late = waitedS - drill.tolerances.lateStartS;
    tell('pierce.left-late', until, left, left, waitedS, 's', LATE_SHARE * clamp(late / LATE_ZERO_S, 0, 1));
  }

  const dose = blowbackMj[until] - blowbackMj[from];
  const right = answer.blowbackMj > DOSE_NOISE_MJ ? answer.blowbackMj : DOSE_NOISE_MJ;
  const times = dose / right;
  const doseLoss = DOSE_SHARE * lossByRatio(times, DOSE_RIGHT_TIMES, DOSE_ZERO_TIMES);

  const motion = PIERCES[start];
  const throughS = answer.throughS ?? motion.rollS;
  const leanedTicks = round(LEANED_SHARE * (throughS < motion.rollS ? throughS : motion.rollS) * TICK_HZ);
  // The trigger may have been pulled more than once before the hole was through: each time the arc has to be struck leaned.
  let struck = from;
  let pulled = false;
  const count = until - from + 1;
  const pose = new Map<FaultId, { loss: number; at: number; worst: number; value: number; from: number; to: number }>();
  const lose = (fault: FaultId, i: number, value: number, loss: number): void => {
    if (!(loss > 0)) return;
    const held = pose.get(fault) ?? { loss: 0, at: i, worst: -1, value, from: i, to: i };
    held.loss += (POSE_SHARE * loss) / count;
    held.to = i;
    if (loss > held.worst) {
      held.worst = loss;
      held.at = i;
      held.value = value;
    }
    pose.set(fault, held);
  };
  for (let i = from; i <= until; i++) {
    const height = standOffMm[i];
    const { lowMm, highMm } = motion;
    const heightLoss = lossOutside(height, lowMm, highMm, 0, highMm + HEIGHT_ZERO_MM);
    lose(height < lowMm ? 'pierce.too-low' : 'pierce.too-high', i, height, heightLoss);
    const lean = leanDeg(input, i);
    const { leastLeanDeg } = motion;
    if (leastLeanDeg > 0) {
      const uprightLoss = lossOutside(lean, leastLeanDeg, 90, UPRIGHT_SHARE * leastLeanDeg, 91);
      const burns = arcState[i] === TRANSFERRED;
      if (burns && pulled) struck = i;
      pulled = !burns && (pulled || arcState[i] !== PILOT);
      if (burns && i <= struck + leanedTicks) lose('pierce.too-upright', i, lean, uprightLoss);
    } else {
      const allowed = drill.tolerances.leanDeg;
      lose('pierce.leaning', i, lean, lossOutside(lean, 0, allowed, -1, 2.5 * allowed));
    }
  }
  const upright = pose.get('pierce.too-upright');
  if (upright) upright.loss = POSE_SHARE * upright.worst;
  // What comes back is brought about by the pose: the two are one mistake, and the graver counts in full.
  const poseLoss = [...pose.values()].reduce((sum, { loss }) => sum + loss, 0);
  tell('pierce.blowback', from, until, until, times, 'share', doseLoss > poseLoss ? doseLoss - poseLoss : 0);
  for (const [fault, held] of pose) {
    tell(
      fault,
      held.from,
      held.to,
      held.at,
      held.value,
      fault === 'pierce.too-high' || fault === 'pierce.too-low' ? 'mm' : 'deg',
      held.loss,
    );
  }
  const lost = found.reduce((sum, evidence) => sum + evidence.lostMarks, 0);
  return { mark: lost >= 100 ? 0 : 100 - lost, band, evidence: mostCostly(found) };
}

/** Rolling upright and coming down to cutting height after break-through take their time, s. */
function leavingS(input: MeasureInput): number {
  return input.drill.start === 'contact-pierce' ? 0.3 : 0.9;
}

function leanDeg(input: MeasureInput, index: number): number {
  const ahead = input.trace.aheadTan[index];
  const left = input.trace.leftTan[index];
  return atan(Math.sqrt(ahead * ahead + left * left)) * DEG_PER_RAD;
}
