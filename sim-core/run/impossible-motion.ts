import { abs } from '../math/elementary.ts';
import { HAND_FIELDS, type HandLog } from './hand-input.ts';
import { ANGLE_QUANTUM_DEG, LENGTH_QUANTUM_MM, TICK_HZ } from './types.ts';

/**
 * What no hand can do while it holds the trigger, in any second of it. A torch that is not lit may be put down anywhere, so what
 * happens with the trigger up is not looked at.
 *
 * Estimates with room, no measured limits: a hand that beats as fast as it can comes to 5 to 8 beats a second and an ill one
 * shakes at up to 12 (figures from memory, of the physiology of tremor), so that 20 there and back is beyond any; guided movements
 * reach a few metres a second at their quickest moment and never keep that up. Single jumps are no sign: a pointer on a machine
 * that stalls is caught up with in one tick, and turns no more often for it.
 */
export const MOTION_LIMITS = {
  /** Turns back in a second, of a movement of at least so much each way. */
  turns: 40,
  turnMm: 1,
  turnDeg: 5,
  /** Way of the tip over the plate in a second, mm. */
  wayMm: 10_000,
  /** Times that the trigger is pulled in a second: fingers come to about 10. */
  pulls: 25,
} as const;

/** Impossible motion: which, and the second in which it was found, ticks from 1. */
export interface ImpossibleMotion {
  kind: 'turns' | 'way' | 'pulls';
  /** Turns, mm or pulls in that second. */
  value: number;
  /** Of turns: the figure of the pose that turns. */
  field: (typeof HAND_FIELDS)[number] | null;
  fromTick: number;
  toTick: number;
  xMm: number;
  yMm: number;
}

const FIELDS = HAND_FIELDS.length;
const TRIGGER = FIELDS - 1;

/** The first motion that no hand makes, null where there is none. */
export function impossibleMotion(log: HandLog): ImpossibleMotion | null {
  let first = wayOrPulls(log);
  for (let field = 0; field < TRIGGER; field++) {
    const found = turns(log, field);
    if (found && (!first || found.toTick < first.toTick)) first = found;
  }
  return first;
}

/** One sentence of what and where. */
export function impossibleMotionSentence({ kind, value, field, toTick, xMm, yMm }: ImpossibleMotion): string {
  const at = `up to ${(toTick / TICK_HZ).toFixed(2)} s, at x ${xMm.toFixed(1)} mm, y ${yMm.toFixed(1)} mm`;
  if (kind === 'pulls') return `No hand did this: in the second ${at}, the trigger is pulled ${value} times.`;
  if (kind === 'way') return `No hand did this: in the second ${at}, the lit torch goes ${(value / 1000).toFixed(1)} m.`;
  return `No hand did this: in the second ${at}, the ${NAMES[field ?? 'x']} of the lit torch turns back ${value} times.`;
}

const NAMES: Record<(typeof HAND_FIELDS)[number], string> = {
  x: 'place along x',
  y: 'place along y',
  height: 'height',
  leanX: 'lean toward x',
  leanY: 'lean toward y',
  trigger: 'trigger',
};

function at(log: HandLog, tick: number, field: number): number {
  return log.values[tick * FIELDS + field]!;
}

function found(log: HandLog, kind: ImpossibleMotion['kind'], value: number, tick: number, field: number | null) {
  return {
    kind,
    value,
    field: field === null ? null : HAND_FIELDS[field]!,
    fromTick: tick + 2 - TICK_HZ < 1 ? 1 : tick + 2 - TICK_HZ,
    toTick: tick + 1,
    xMm: at(log, tick, 0) * LENGTH_QUANTUM_MM,
    yMm: at(log, tick, 1) * LENGTH_QUANTUM_MM,
  };
}

/** Turns of one figure: changes of direction, each after at least the least movement. */
function turns(log: HandLog, field: number): ImpossibleMotion | null {
  const least = field < 3 ? MOTION_LIMITS.turnMm / LENGTH_QUANTUM_MM : MOTION_LIMITS.turnDeg / ANGLE_QUANTUM_DEG;
  const turnTicks: number[] = [];
  let oldest = 0;
  let held = false;
  /** 1 or -1 once the figure has gone so far one way; `farthest` is where it came to, or before that where it began. */
  let direction = 0;
  let farthest = 0;
  for (let tick = 0; tick < log.length; tick++) {
    const value = at(log, tick, field);
    const before = held;
    held = at(log, tick, TRIGGER) === 1;
    if (!held || !before) {
      direction = 0;
      farthest = value;
      continue;
    }
    const beyond = value - farthest;
    if (direction === 0) {
      if (abs(beyond) >= least) {
        direction = beyond > 0 ? 1 : -1;
        farthest = value;
      }
    } else if (beyond * direction > 0) farthest = value;
    else if (abs(beyond) >= least) {
      direction = -direction;
      farthest = value;
      turnTicks.push(tick);
      while (turnTicks[oldest]! <= tick - TICK_HZ) oldest++;
      const count = turnTicks.length - oldest;
      if (count > MOTION_LIMITS.turns) return found(log, 'turns', count, tick, field);
    }
  }
  return null;
}

function wayOrPulls(log: HandLog): ImpossibleMotion | null {
  const most = MOTION_LIMITS.wayMm / LENGTH_QUANTUM_MM;
  const ways = new Float64Array(TICK_HZ);
  const pulled = new Uint8Array(TICK_HZ);
  let way = 0;
  let pulls = 0;
  for (let tick = 1; tick < log.length; tick++) {
    const slot = tick % TICK_HZ;
    const now = at(log, tick, TRIGGER) === 1;
    const before = at(log, tick - 1, TRIGGER) === 1;
    const dx = abs(at(log, tick, 0) - at(log, tick - 1, 0));
    const dy = abs(at(log, tick, 1) - at(log, tick - 1, 1));
    const step = now && before ? Math.sqrt(dx * dx + dy * dy) : 0;
    const pull = now && !before ? 1 : 0;
    way += step - ways[slot]!;
    pulls += pull - pulled[slot]!;
    ways[slot] = step;
    pulled[slot] = pull;
    if (pulls > MOTION_LIMITS.pulls) return found(log, 'pulls', pulls, tick, null);
    if (way > most) return found(log, 'way', way * LENGTH_QUANTUM_MM, tick, null);
  }
  return null;
}
