import {
  ARC_STATES,
  type CompletedRun,
  type Drill,
  type HandTick,
  pathGeometry,
  readHandTick,
  TICK_HZ,
  windowOfDrill,
} from '../../sim-core/index.ts';

/**
 * What no instructor would let pass, each as a figure over its limit: 1 and above is broken. Taken from the hand's own ticks and
 * the metal, by no part of the scoring. Where a limit says "of the line", it is the share of the line's millimetres.
 */
export const LIMITS = {
  /** Share of the line cut more than a quarter outside the core's speed window. */
  speed: 0.6,
  /** Share of the line with the sparks more than 10 deg outside the band, or none below. Where the drill marks the spark angle. */
  sparks: 0.6,
  /** Share of the line with the handle more than twice the tolerance off the lean that is asked for. */
  lean: 0.6,
  /** Share of the line with the tip more than 1.5 mm above the band, or below half of its low end. */
  standOff: 0.6,
  /** Share of the line more than twice the tolerance off it. */
  offLine: 0.4,
  /** Longest stretch of the line along which no cut goes through as near as the limit of `offLine`, mm. */
  uncut: 2,
  /** Metal cut farther than 6 mm from the line, mm of way with the arc on it. */
  beside: 10,
  /** Times the trigger is let go on the line and the cut gone on with, where the drill has no openings and one pass. */
  restrikes: 3,
  /** Rest on the line with the arc on metal, before its last stretch and away from where it is pierced, s. */
  rest: 2.5,
  /** Share of the line gone over again with the arc on, more often than the drill has passes. */
  again: 0.3,
  /** Root mean square of what the place along the line does quicker than 4 Hz, mm, over all the time on it. */
  shake: 0.5,
  /** Way within one tick while the arc burns, mm: 1,900 mm/s. */
  leap: 8,
  /** A rolling pierce begun nearly upright: 1 over the lean's share of 20 deg. */
  upright: 1,
} as const;
export type BrokenKind = keyof typeof LIMITS;
export const BROKEN_KINDS = Object.keys(LIMITS) as BrokenKind[];

const TRANSFERRED = ARC_STATES.indexOf('transferred');
const CORRIDOR_MM = 6;
/** Time over which a speed is taken: a shake within its limit is then no speed. */
const SPEED_TICKS = TICK_HZ / 4;
const DEG = 180 / Math.PI;

export type RunForLook = Pick<CompletedRun, 'drill' | 'log' | 'samples' | 'simulation'>;

/** Figure over limit of every kind of broken technique in a run. */
export function brokenTechnique({ drill, log, samples, simulation }: RunForLook): Record<BrokenKind, number> {
  const geometry = pathGeometry(drill.path);
  const { windowLowMmPerS: low, windowHighMmPerS: high } = windowOfDrill(drill);
  const { arcState, sparkAngleDeg } = samples.columns;
  const { tolerances, intended } = drill;
  const lengthMm = geometry.lengthMm;
  const bins = Math.max(1, Math.round(lengthMm));
  const count = new Float64Array(bins);
  const bad = { speed: new Float64Array(bins), sparks: new Float64Array(bins), lean: new Float64Array(bins) };
  const more = { standOff: new Float64Array(bins), offLine: new Float64Array(bins) };
  const passes = new Float64Array(bins);
  const lastAt = new Int32Array(bins).fill(-TICK_HZ * 1000);
  const ticks = log.length;
  const s = new Float64Array(ticks);
  const off = new Float64Array(ticks);
  const x = new Float64Array(ticks);
  const y = new Float64Array(ticks);
  const on = new Uint8Array(ticks);
  const tick: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  const leadOut = drill.finish === 'run-off' ? 2 * drill.plate.thicknessMm + 6 : drill.plate.thicknessMm + 2;
  const leadIn = Math.max(3, drill.leadInMm);
  let [besideMm, restTicks, restrikes, leapMm, firstOn] = [0, 0, 0, 0, -1];
  let lost = false;
  let pierceLean = Number.POSITIVE_INFINITY;
  for (let n = 0; n < ticks; n += 1) {
    readHandTick(log, n, tick);
    const height = tick.height / 100;
    const tanX = Math.tan(tick.leanX / 20 / DEG);
    const tanY = Math.tan(tick.leanY / 20 / DEG);
    x[n] = tick.x / 100 - height * tanX;
    y[n] = tick.y / 100 - height * tanY;
    // Of a line that comes near itself, the branch that was being cut.
    const onBefore = n > 0 && on[n - 1] === 1;
    const foot = onBefore ? geometry.nearest(x[n]!, y[n]!, s[n - 1]!, 8) : geometry.nearest(x[n]!, y[n]!);
    s[n] = foot.sMm;
    off[n] = foot.offsetMm;
    const burns = arcState[n] === TRANSFERRED;
    on[n] = burns && Math.abs(foot.offsetMm) + Math.abs(foot.beyondMm) <= CORRIDOR_MM ? 1 : 0;
    const wayMm = n > 0 ? Math.hypot(x[n]! - x[n - 1]!, y[n]! - y[n - 1]!) : 0;
    if (burns && n > 0 && arcState[n - 1] === TRANSFERRED && wayMm > leapMm) leapMm = wayMm;
    if (burns && on[n] === 0) besideMm += wayMm;
    if (on[n] === 0) {
      if (firstOn >= 0 && tick.trigger === 0 && foot.sMm > leadIn && foot.sMm < lengthMm - leadOut) lost = true;
      continue;
    }
    if (firstOn < 0) {
      firstOn = n;
      pierceLean = Math.atan(Math.hypot(tanX, tanY)) * DEG;
    }
    if (lost) restrikes += 1;
    lost = false;
    if (foot.sMm < leadIn || foot.sMm > lengthMm - leadOut) continue;
    const back = Math.max(0, n - SPEED_TICKS);
    const speed = (Math.hypot(x[n]! - x[back]!, y[n]! - y[back]!) * TICK_HZ) / Math.max(1, n - back);
    // A pierce is waited for: under a leaned torch that is beside the start, where the arc came on.
    const pierces = drill.start !== 'edge' && Math.abs(foot.sMm - s[firstOn]!) < 3;
    if (speed < 1 && !pierces) restTicks += 1;
    const bin = Math.min(bins - 1, Math.floor((foot.sMm / lengthMm) * bins));
    if (n - lastAt[bin]! > TICK_HZ) passes[bin]! += 1;
    lastAt[bin] = n;
    count[bin]! += 1;
    if (low !== null && high !== null && (speed < 0.75 * low || speed > 1.25 * high)) bad.speed[bin]! += 1;
    const spark = sparkAngleDeg[n]!;
    const band = tolerances.sparkAngleDeg;
    if (!(spark >= band.low - 10 && spark <= band.high + 10)) bad.sparks[bin]! += 1;
    if (leanOff(drill, foot.headingRad, tanX, tanY) > 2 * tolerances.leanDeg) bad.lean[bin]! += 1;
    if (height > tolerances.standOffMm.high + 1.5 || height < tolerances.standOffMm.low / 2) more.standOff[bin]! += 1;
    if (Math.abs(foot.offsetMm) > 2 * tolerances.offLineMm) more.offLine[bin]! += 1;
  }
  const share = (array: Float64Array): number => {
    let [judged, wrong] = [0, 0];
    for (let bin = 0; bin < bins; bin += 1) {
      if (count[bin] === 0) continue;
      judged += 1;
      if (array[bin]! > count[bin]! / 2) wrong += 1;
    }
    return judged > 0 ? wrong / judged : 0;
  };
  const marked = (id: string): boolean => drill.rubric.measures.some((measure) => measure.id === id);
  const holed = drill.plate.openings !== null || drill.plate.cutouts.length > 0;
  let again = 0;
  for (let bin = 0; bin < bins; bin += 1) if (passes[bin]! > intended.passes) again += 1;
  const figures: Record<BrokenKind, number> = {
    speed: share(bad.speed),
    sparks: marked('spark-angle') ? share(bad.sparks) : 0,
    lean: share(bad.lean),
    standOff: share(more.standOff),
    offLine: share(more.offLine),
    uncut: intended.grooveDepthMm === null ? longestShutMm(drill, simulation) : 0,
    beside: besideMm,
    restrikes: holed || intended.passes > 1 ? 0 : restrikes,
    rest: restTicks / TICK_HZ,
    again: again / bins,
    shake: shakeMm(s, on),
    leap: leapMm,
    upright: drill.start === 'rolling-pierce' && firstOn >= 0 && pierceLean < 20 ? 2 - pierceLean / 20 : 0,
  };
  for (const kind of BROKEN_KINDS) figures[kind] /= LIMITS[kind];
  return figures;
}

/** Distance of the handle from the lean that is asked for, deg. */
function leanOff(drill: Drill, heading: number, tanX: number, tanY: number): number {
  const { bevelDeg, travelAngleDeg: push } = drill.intended;
  const [c, d] = [Math.cos(heading), Math.sin(heading)];
  const ahead = Math.atan(tanX * c + tanY * d) * DEG;
  const left = Math.atan(tanY * c - tanX * d) * DEG - bevelDeg;
  const along = push === null ? ahead : ahead < push.low ? ahead - push.low : Math.max(0, ahead - push.high);
  return Math.hypot(along, left);
}

/** Ways through the plate that are tried, deg from how the drill asks for it: along the line, and to its sides as narrowly as a kerf in thick plate needs. */
const ALONG_DEG = [0, 15, -15];
const SIDE_STEP_DEG = 4;
const SIDE_REACH_DEG = 40;

/**
 * Longest stretch of the line where nothing is open from top to underside within twice the tolerance and a kerf of it, mm. A kerf that
 * leans is open: how the handle leaned is looked at by itself.
 */
function longestShutMm(drill: Drill, simulation: CompletedRun['simulation']): number {
  const geometry = pathGeometry(drill.path);
  const stepMm = 0.25;
  const reachMm = 2 * drill.tolerances.offLineMm + 1;
  const asides = outward(stepMm, reachMm);
  const sides = outward(SIDE_STEP_DEG, SIDE_REACH_DEG);
  let [longest, shut] = [0, 0];
  for (let at = stepMm / 2; at < geometry.lengthMm; at += stepMm) {
    const { xMm, yMm, headingRad } = geometry.pointAt(at);
    const [c, d] = [Math.cos(headingRad), Math.sin(headingRad)];
    const open = sides.some((side) =>
      asides.some((aside) =>
        ALONG_DEG.some((lean) => {
          const across = drill.intended.bevelDeg + side;
          return simulation.isOpenAlongAxis(xMm - aside * d, yMm + aside * c, lean * c - across * d, lean * d + across * c);
        }),
      ),
    );
    shut = open ? 0 : shut + stepMm;
    if (shut > longest) longest = shut;
  }
  return longest;
}

/** 0, then one step to either side, and so on up to `reach`. */
function outward(step: number, reach: number): number[] {
  const places = [0];
  for (let place = step; place <= reach; place += step) places.push(place, -place);
  return places;
}

/** Root mean square of the place along the line less its mean over a quarter of a second, with the arc on it. */
function shakeMm(s: Float64Array, on: Uint8Array): number {
  const half = TICK_HZ / 8;
  let [from, squares, count] = [-1, 0, 0];
  for (let n = 0; n <= s.length; n += 1) {
    if (n < s.length && on[n] === 1) {
      if (from < 0) from = n;
      continue;
    }
    if (from >= 0 && n - from > 2 * half) {
      let mean = 0;
      for (let k = from; k < from + 2 * half; k += 1) mean += s[k]! / (2 * half);
      for (let k = from + half; k + half < n; k += 1) {
        squares += (s[k]! - mean) ** 2;
        count += 1;
        mean += (s[k + half]! - s[k - half]!) / (2 * half);
      }
    }
    from = -1;
  }
  return count > 0 ? Math.sqrt(squares / count) : 0;
}
