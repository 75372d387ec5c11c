import { atan, atan2, DEG_PER_RAD, RAD_PER_DEG, tan } from '../math/elementary.ts';
import { ANGLE_QUANTUM_DEG, type HandTick, LENGTH_QUANTUM_MM, type Sample, TICK_HZ } from '../run/types.ts';

/** Ticks over which the speed is taken: 50 ms. */
export const SPEED_TICKS = 12;
/** Movement over that time under which the heading is kept, mm. */
const HEADING_MOVE_MM = 0.05;
/** Steepest lean of the handle, deg. */
export const STEEPEST_LEAN_DEG = 75;

/** The tip's place, lean and motion. `trailX`, `trailY` hold the last SPEED_TICKS positions, oldest at `trailNext`. */
export interface Kinematics {
  xMm: number;
  yMm: number;
  heightMm: number;
  leanTanX: number;
  leanTanY: number;
  speedMmPerS: number;
  headingX: number;
  headingY: number;
  trailNext: number;
  trailFilled: number;
}

export interface Trail {
  x: Float64Array;
  y: Float64Array;
}

export function createKinematics(): Kinematics {
  return {
    xMm: 0,
    yMm: 0,
    heightMm: 0,
    leanTanX: 0,
    leanTanY: 0,
    speedMmPerS: 0,
    headingX: 1,
    headingY: 0,
    trailNext: 0,
    trailFilled: 0,
  };
}

export function createTrail(): Trail {
  return { x: new Float64Array(SPEED_TICKS), y: new Float64Array(SPEED_TICKS) };
}

/** Takes one tick of input. A height under the surface is a tip that touches; a lean beyond 75 deg is held there. */
export function followHand(motion: Kinematics, trail: Trail, input: HandTick): void {
  const x = input.x * LENGTH_QUANTUM_MM;
  const y = input.y * LENGTH_QUANTUM_MM;
  const slot = motion.trailNext;
  if (motion.trailFilled >= SPEED_TICKS) {
    const dx = x - trail.x[slot]!;
    const dy = y - trail.y[slot]!;
    const moved = Math.sqrt(dx * dx + dy * dy);
    motion.speedMmPerS = (moved * TICK_HZ) / SPEED_TICKS;
    if (moved > HEADING_MOVE_MM) {
      motion.headingX = dx / moved;
      motion.headingY = dy / moved;
    }
  } else motion.trailFilled++;
  trail.x[slot] = x;
  trail.y[slot] = y;
  motion.trailNext = slot + 1 === SPEED_TICKS ? 0 : slot + 1;
  motion.xMm = x;
  motion.yMm = y;
  motion.heightMm = input.height > 0 ? input.height * LENGTH_QUANTUM_MM : 0;
  motion.leanTanX = leanTans[leanEntry(input.leanX)]!;
  motion.leanTanY = leanTans[leanEntry(input.leanY)]!;
}

const STEEPEST_QUANTA = STEEPEST_LEAN_DEG / ANGLE_QUANTUM_DEG;
/** Tangent of every lean that there is, by quanta from the steepest one way to the steepest the other; NaN until it is asked for. */
const leanTans = new Float64Array(2 * STEEPEST_QUANTA + 1).fill(0 / 0);

/** Place of a lean in the table. */
function leanEntry(quanta: number): number {
  const held = quanta > STEEPEST_QUANTA ? STEEPEST_QUANTA : quanta < -STEEPEST_QUANTA ? -STEEPEST_QUANTA : quanta;
  const entry = held + STEEPEST_QUANTA;
  if (Number.isNaN(leanTans[entry])) leanTans[entry] = held === 0 ? 0 : tan(held * ANGLE_QUANTUM_DEG * RAD_PER_DEG);
  return entry;
}

/** The directions of a sample. Each is told by a function of its own that writes it there: a number handed back would be allocated. */
export type Directions = Pick<Sample, 'headingRad' | 'travelAngleDeg' | 'workAngleDeg'>;

export function tellHeading(motion: Kinematics, out: Directions): void {
  out.headingRad = atan2(motion.headingY, motion.headingX);
}

/** Lean in the plane of travel, deg; positive = the handle leans toward the direction of travel. */
export function tellTravelAngle(motion: Kinematics, out: Directions): void {
  out.travelAngleDeg = atan(motion.leanTanX * motion.headingX + motion.leanTanY * motion.headingY) * DEG_PER_RAD;
}

/** Lean across the travel, deg; positive = toward the left of travel. */
export function tellWorkAngle(motion: Kinematics, out: Directions): void {
  out.workAngleDeg = atan(motion.leanTanY * motion.headingX - motion.leanTanX * motion.headingY) * DEG_PER_RAD;
}
