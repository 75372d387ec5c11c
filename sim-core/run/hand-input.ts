import { clamp, round } from '../math/elementary.ts';
import { ANGLE_QUANTUM_DEG, type HandTick, LENGTH_QUANTUM_MM } from './types.ts';

/** The hand as a device reports it: the tip in the plate frame, its height above the top surface, and the handle's lean from the normal toward +x and +y. */
export interface HandPose {
  xMm: number;
  yMm: number;
  heightMm: number;
  leanXDeg: number;
  leanYDeg: number;
  trigger: boolean;
}

const FURTHEST_MM = 10000;
/** Farther off no arc is struck, and the look for metal under the tip costs by the square of the height. */
const HIGHEST_MM = 200;
const STEEPEST_DEG = 80;

/** Rounds a pose to whole quanta, and holds it within what can be recorded; what is recorded is exactly what is simulated. Throws RangeError where a figure is not finite. */
export function quantiseHand(
  pose: HandPose,
  out: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 },
): HandTick {
  out.x = quanta(pose.xMm, LENGTH_QUANTUM_MM, FURTHEST_MM, 'xMm');
  out.y = quanta(pose.yMm, LENGTH_QUANTUM_MM, FURTHEST_MM, 'yMm');
  out.height = quanta(pose.heightMm < 0 ? 0 : pose.heightMm, LENGTH_QUANTUM_MM, HIGHEST_MM, 'heightMm');
  out.leanX = quanta(pose.leanXDeg, ANGLE_QUANTUM_DEG, STEEPEST_DEG, 'leanXDeg');
  out.leanY = quanta(pose.leanYDeg, ANGLE_QUANTUM_DEG, STEEPEST_DEG, 'leanYDeg');
  out.trigger = pose.trigger ? 1 : 0;
  return out;
}

function quanta(value: number, quantum: number, furthest: number, name: string): number {
  if (!(value - value === 0)) throw new RangeError(`The hand's ${name} is not a finite number.`);
  return round(clamp(value, -furthest, furthest) / quantum);
}

/** Inputs of a run, tick by tick: six integers each. Grows as needed; `length` ticks are filled. */
export interface HandLog {
  length: number;
  values: Int32Array;
}

export const HAND_FIELDS = ['x', 'y', 'height', 'leanX', 'leanY', 'trigger'] as const;
const FIELDS = HAND_FIELDS.length;

/** Least and greatest value of each field, in quanta: what `quantiseHand` gives. */
const FURTHEST = round(FURTHEST_MM / LENGTH_QUANTUM_MM);
const STEEPEST = round(STEEPEST_DEG / ANGLE_QUANTUM_DEG);
const LEAST = [-FURTHEST, -FURTHEST, 0, -STEEPEST, -STEEPEST, 0] as const;
const GREATEST = [FURTHEST, FURTHEST, round(HIGHEST_MM / LENGTH_QUANTUM_MM), STEEPEST, STEEPEST, 1] as const;

export function createHandLog(capacity = 14400): HandLog {
  return { length: 0, values: new Int32Array(capacity * FIELDS) };
}

export function appendHandTick(log: HandLog, tick: HandTick): void {
  const at = log.length * FIELDS;
  if (at + FIELDS > log.values.length) {
    const grown = new Int32Array(log.values.length * 2 + FIELDS);
    grown.set(log.values);
    log.values = grown;
  }
  log.values[at] = tick.x;
  log.values[at + 1] = tick.y;
  log.values[at + 2] = tick.height;
  log.values[at + 3] = tick.leanX;
  log.values[at + 4] = tick.leanY;
  log.values[at + 5] = tick.trigger;
  log.length++;
}

/** Tick `index` (0 = the first) of the log, into `out`. Throws RangeError beyond the end. */
export function readHandTick(log: HandLog, index: number, out: HandTick): HandTick {
  if (!(index >= 0 && index < log.length)) throw new RangeError(`The log holds ${log.length} ticks; there is no tick ${index}.`);
  const at = index * FIELDS;
  out.x = log.values[at]!;
  out.y = log.values[at + 1]!;
  out.height = log.values[at + 2]!;
  out.leanX = log.values[at + 3]!;
  out.leanY = log.values[at + 4]!;
  out.trigger = log.values[at + 5] === 1 ? 1 : 0;
  return out;
}

/**
 * The log as bytes: the number of ticks, then per tick a mask of the fields that changed and their differences, all as
 * zigzag varints. A still hand costs one byte a tick.
 */
export function encodeHandLog(log: HandLog): Uint8Array {
  const bytes = new Uint8Array(10 + log.length * (1 + FIELDS * 5));
  let end = writeVarint(bytes, 0, log.length);
  const last = [0, 0, 0, 0, 0, 0];
  for (let tick = 0; tick < log.length; tick++) {
    const at = tick * FIELDS;
    let mask = 0;
    for (let f = 0; f < FIELDS; f++) if (log.values[at + f] !== last[f]) mask |= 1 << f;
    end = writeVarint(bytes, end, mask);
    for (let f = 0; f < FIELDS; f++) {
      if ((mask & (1 << f)) === 0) continue;
      const difference = log.values[at + f]! - last[f]!;
      end = writeVarint(bytes, end, difference < 0 ? -2 * difference - 1 : 2 * difference);
      last[f] = log.values[at + f]!;
    }
  }
  return bytes.slice(0, end);
}

function writeVarint(bytes: Uint8Array, at: number, value: number): number {
  let rest = value;
  let end = at;
  while (rest > 127) {
    bytes[end++] = (rest % 128) + 128;
    rest = (rest - (rest % 128)) / 128;
  }
  bytes[end++] = rest;
  return end;
}

/** Inverse of `encodeHandLog`. Throws RangeError, naming the byte, where the bytes are not such a log. */
export function decodeHandLog(bytes: Uint8Array): HandLog {
  let at = 0;
  const read = (): number => {
    let value = 0;
    let scale = 1;
    for (let n = 0; n < 6; n++) {
      const byte = bytes[at];
      if (byte === undefined) throw new RangeError(`The recorded inputs break off at byte ${at}.`);
      at++;
      value += (byte % 128) * scale;
      if (byte < 128) return value;
      scale *= 128;
    }
    throw new RangeError(`The recorded inputs hold a number that is too long at byte ${at}.`);
  };
  const ticks = read();
  if (ticks > bytes.length) throw new RangeError(`The recorded inputs claim ${ticks} ticks in ${bytes.length} bytes.`);
  const log = createHandLog(ticks > 0 ? ticks : 1);
  const last = [0, 0, 0, 0, 0, 0];
  for (let tick = 0; tick < ticks; tick++) {
    const mask = read();
    if (mask > 63) throw new RangeError(`The recorded inputs name an unknown field at byte ${at}.`);
    for (let f = 0; f < FIELDS; f++) {
      if ((mask & (1 << f)) === 0) continue;
      const zigzag = read();
      const value = last[f]! + (zigzag % 2 === 1 ? -(zigzag + 1) / 2 : zigzag / 2);
      if (value < LEAST[f]! || value > GREATEST[f]!) {
        const [field, low, high] = [HAND_FIELDS[f], LEAST[f], GREATEST[f]];
        throw new RangeError(
          `Tick ${tick + 1} of the recorded inputs has ${value} for ${field}, at byte ${at}; it must lie from ${low} to ${high}.`,
        );
      }
      last[f] = value;
    }
    const start = tick * FIELDS;
    for (let f = 0; f < FIELDS; f++) log.values[start + f] = last[f]!;
    log.length++;
  }
  if (at !== bytes.length) throw new RangeError(`The recorded inputs go on after their end, at byte ${at}.`);
  return log;
}
