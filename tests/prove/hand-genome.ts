import {
  ANGLE_QUANTUM_DEG,
  type Drill,
  type HandLog,
  type HandPose,
  type HandTick,
  LENGTH_QUANTUM_MM,
  pathGeometry,
  quantiseHand,
  readHandTick,
  TICK_HZ,
} from '../../sim-core/index.ts';
import { nextInteger, nextUnit, type RandomState } from '../../sim-core/math/random.ts';

/** Control points over a run, equally spaced. */
const POINTS = 6;

/** What a hand does beside what the reference hand did: a reference hand's own ticks, bent. Shares are of its run. */
export interface HandGenome {
  /** Natural logarithm of the pace over the reference hand's, at the control points. */
  pace: number[];
  /** Added at the control points: left of the line, height, lean toward the travel and to its left. */
  asideMm: number[];
  heightMm: number[];
  aheadDeg: number[];
  leftDeg: number[];
  /** A shake of so many hertz. */
  shake: { hz: number; alongMm: number; asideMm: number; heightMm: number; leanDeg: number };
  /** The trigger let go every so often for so long, between two shares of the run; never where `everyS` is 0. */
  flicker: { everyS: number; offS: number; from: number; to: number };
  /** The hand halts for so long, trigger as it is or let go. */
  halt: { at: number; s: number; letGo: boolean };
  /** From one moment of the run to another in one tick, back or ahead, once; none where they are equal. */
  leap: { from: number; to: number };
  /** A cut of this length beside the line, or on it, from this share of it on, before all else or after it. */
  slash: { at: number; lengthMm: number; asideMm: number; mmPerS: number; first: boolean };
}

/** Moments of the reference hand's run, taken apart. */
export interface ReferenceTicks {
  poses: HandPose[];
  headingRad: number[];
  drill: Drill;
}

export function referenceTicks(drill: Drill, log: HandLog): ReferenceTicks {
  const geometry = pathGeometry(drill.path);
  const tick: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  const poses: HandPose[] = [];
  const headingRad: number[] = [];
  for (let n = 0; n < log.length; n += 1) {
    readHandTick(log, n, tick);
    const pose = {
      xMm: tick.x * LENGTH_QUANTUM_MM,
      yMm: tick.y * LENGTH_QUANTUM_MM,
      heightMm: tick.height * LENGTH_QUANTUM_MM,
      leanXDeg: tick.leanX * ANGLE_QUANTUM_DEG,
      leanYDeg: tick.leanY * ANGLE_QUANTUM_DEG,
      trigger: tick.trigger === 1,
    };
    poses.push(pose);
    headingRad.push(geometry.nearest(pose.xMm, pose.yMm).headingRad);
  }
  return { poses, headingRad, drill };
}

const none = (): number[] => new Array<number>(POINTS).fill(0);

/** The hand that does what the reference hand did. */
export function plainGenome(): HandGenome {
  return {
    pace: none(),
    asideMm: none(),
    heightMm: none(),
    aheadDeg: none(),
    leftDeg: none(),
    shake: { hz: 8, alongMm: 0, asideMm: 0, heightMm: 0, leanDeg: 0 },
    flicker: { everyS: 0, offS: 0.05, from: 0.2, to: 0.9 },
    halt: { at: 0.5, s: 0, letGo: false },
    leap: { from: 0.5, to: 0.5 },
    slash: { at: 0.3, lengthMm: 0, asideMm: 12, mmPerS: 20, first: true },
  };
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** A copy with one to three things changed, by as much as `reach` says, 0 to 1. */
export function mutated(genome: HandGenome, random: RandomState, reach: number): HandGenome {
  const next = structuredClone(genome);
  const swing = (by: number): number => (nextUnit(random) * 2 - 1) * by * reach;
  const bend = (points: number[], by: number, low: number, high: number): void => {
    const whole = nextUnit(random) < 0.4;
    const at = nextInteger(random) % POINTS;
    const change = swing(by);
    for (let n = 0; n < POINTS; n += 1) if (whole || n === at) points[n] = clamp(points[n]! + change, low, high);
  };
  const moves: (() => void)[] = [
    () => bend(next.pace, 1, -2, 2),
    () => bend(next.asideMm, 3, -15, 15),
    () => bend(next.heightMm, 3, -3, 12),
    () => bend(next.aheadDeg, 20, -50, 50),
    () => bend(next.leftDeg, 20, -50, 50),
    () => {
      const { shake } = next;
      shake.hz = clamp(shake.hz + swing(20), 1, 120);
      shake.alongMm = clamp(shake.alongMm + swing(3), 0, 10);
      if (nextUnit(random) < 0.5) shake.asideMm = clamp(shake.asideMm + swing(2), 0, 10);
      if (nextUnit(random) < 0.3) shake.heightMm = clamp(shake.heightMm + swing(2), 0, 6);
      if (nextUnit(random) < 0.3) shake.leanDeg = clamp(shake.leanDeg + swing(15), 0, 40);
    },
    () => {
      const { flicker } = next;
      flicker.everyS = nextUnit(random) < 0.1 ? 0 : clamp(flicker.everyS + 0.1 + swing(2), 0.02, 10);
      flicker.offS = clamp(flicker.offS + swing(0.5), 0.005, 2);
      flicker.from = clamp(flicker.from + swing(0.3), 0, 1);
      flicker.to = clamp(flicker.to + swing(0.3), 0, 1);
    },
    () => {
      next.halt = {
        at: clamp(next.halt.at + swing(0.5), 0, 1),
        s: clamp(next.halt.s + swing(3), 0, 6),
        letGo: nextUnit(random) < 0.5,
      };
    },
    () => {
      next.leap.from = clamp(next.leap.from + swing(0.5), 0, 1);
      next.leap.to = clamp(nextUnit(random) < 0.2 ? next.leap.from : next.leap.to + swing(0.5), 0, 1);
    },
    () => {
      next.slash = {
        at: clamp(next.slash.at + swing(1), 0, 1),
        lengthMm: clamp(next.slash.lengthMm + swing(60), 0, 120),
        asideMm: nextUnit(random) < 0.3 ? 0 : clamp(next.slash.asideMm + swing(20), -30, 30),
        mmPerS: clamp(next.slash.mmPerS + swing(20), 4, 100),
        first: nextUnit(random) < 0.5,
      };
    },
  ];
  const changes = 1 + (nextInteger(random) % 3);
  for (let n = 0; n < changes; n += 1) moves[nextInteger(random) % moves.length]!();
  return next;
}

/** Figure at a share of the run, straight between control points. */
function pointAt(points: readonly number[], share: number): number {
  const at = clamp(share, 0, 1) * (POINTS - 1);
  const first = Math.min(POINTS - 2, Math.floor(at));
  return points[first]! + (points[first + 1]! - points[first]!) * (at - first);
}

const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);

/** The ticks of a hand. They do not look at what the cut does: what the reference hand waited for stands in its own ticks. */
export function* ticksOf(genome: HandGenome, { poses, headingRad, drill }: ReferenceTicks): Generator<HandTick> {
  const { shake, flicker, halt, leap, slash } = genome;
  const last = poses.length - 1;
  const tick: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  if (slash.first) yield* slashTicks(slash, drill, tick);
  let count = 0;
  let leapt = false;
  let haltedTicks = 0;
  let flickerTicks = 0;
  for (let u = 0; u <= last; count += 1) {
    const share = u / last;
    const n = Math.floor(u);
    const halting = share >= halt.at && haltedTicks < halt.s * TICK_HZ;
    const pose = bent(genome, poses[n]!, headingRad[n]!, share, count);
    if (halting) {
      haltedTicks += 1;
      if (halt.letGo) pose.trigger = false;
    } else u += Math.exp(pointAt(genome.pace, share));
    if (flicker.everyS > 0 && share >= flicker.from && share <= flicker.to) {
      flickerTicks += 1;
      const inTurnS = (flickerTicks / TICK_HZ) % (flicker.everyS + flicker.offS);
      if (inTurnS > flicker.everyS) pose.trigger = false;
    }
    if (!leapt && leap.from !== leap.to && share >= leap.from) {
      leapt = true;
      u = leap.to * last;
    }
    yield quantiseHand(pose, tick);
  }
  if (!slash.first) yield* slashTicks(slash, drill, tick);

  function bent(from: HandGenome, pose: HandPose, heading: number, share: number, at: number): HandPose {
    const wave = Math.sin((2 * Math.PI * shake.hz * at) / TICK_HZ);
    const [c, s] = [Math.cos(heading), Math.sin(heading)];
    const alongMm = shake.alongMm * wave;
    const asideMm = pointAt(from.asideMm, share) + shake.asideMm * wave;
    const heightMm = Math.max(0, pose.heightMm + pointAt(from.heightMm, share) + shake.heightMm * wave);
    const aheadDeg = pointAt(from.aheadDeg, share) + shake.leanDeg * wave;
    const leftDeg = pointAt(from.leftDeg, share);
    const leanXDeg = clamp(pose.leanXDeg + aheadDeg * c - leftDeg * s, -60, 60);
    const leanYDeg = clamp(pose.leanYDeg + aheadDeg * s + leftDeg * c, -60, 60);
    // The place where the axis meets the plate stays, whatever the lean and the height.
    return {
      xMm: pose.xMm - pose.heightMm * tan(pose.leanXDeg) + heightMm * tan(leanXDeg) + alongMm * c - asideMm * s,
      yMm: pose.yMm - pose.heightMm * tan(pose.leanYDeg) + heightMm * tan(leanYDeg) + alongMm * s + asideMm * c,
      heightMm,
      leanXDeg,
      leanYDeg,
      trigger: pose.trigger,
    };
  }
}

/** A cut along the line at a distance from it, with the trigger pulled a while before and let go after it. */
function* slashTicks(slash: HandGenome['slash'], drill: Drill, tick: HandTick): Generator<HandTick> {
  if (slash.lengthMm < 1) return;
  const geometry = pathGeometry(drill.path);
  const waitTicks = TICK_HZ;
  const way = Math.ceil((slash.lengthMm / slash.mmPerS) * TICK_HZ);
  for (let n = -waitTicks; n <= way + waitTicks / 4; n += 1) {
    const place = geometry.pointAt(geometry.lengthMm * slash.at);
    const alongMm = slash.lengthMm * clamp(n / way, 0, 1);
    const [c, s] = [Math.cos(place.headingRad), Math.sin(place.headingRad)];
    const pose = {
      xMm: place.xMm + alongMm * c - slash.asideMm * s,
      yMm: place.yMm + alongMm * s + slash.asideMm * c,
      heightMm: 1.5,
      leanXDeg: 0,
      leanYDeg: 0,
      trigger: n <= way,
    };
    yield quantiseHand(pose, tick);
  }
}
