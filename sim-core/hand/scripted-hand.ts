import { holdToGuide } from '../drill/guide.ts';
import type { HandScript, HandStep } from '../drill/hand-script-schema.ts';
import { pathGeometry } from '../drill/path-geometry.ts';
import { type RigChoices, rightChoices } from '../drill/rig-choices.ts';
import type { Drill } from '../drill/schema.ts';
import { abs, cos, RAD_PER_DEG, sin, TAU, tan } from '../math/elementary.ts';
import { distanceMm } from '../math/plane.ts';
import { quantiseHand } from '../run/hand-input.ts';
import { type HandTick, type PointMm, TICK_HZ } from '../run/types.ts';
import { advanceGlide, type Glide } from './glide.ts';
import { advanceRamp, type Ramp, rampEnded, startRamp } from './hand-pose.ts';
import { continues, corners, leanDeg, type Spot, spotOf, spotOn } from './hand-spot.ts';
import { type HandWindow, speedMmPerS } from './hand-window.ts';
import { createTremor } from './tremor.ts';

/** What a hand can see of the cut while it works. */
export interface HandSight {
  /** The arc is on the metal. */
  transferred: boolean;
  /** Is the line of an axis that meets the surface at (x, y), leaning so, open from top to underside? */
  isOpenAlongAxis(xMm: number, yMm: number, leanXDeg: number, leanYDeg: number): boolean;
}

export interface ScriptedHand {
  /** The hand's next tick, after a look at what the last one did. The object is reused. */
  next(sight: HandSight): Readonly<HandTick>;
  /** True once every step is done. */
  readonly done: boolean;
}

export interface ScriptedHandOptions {
  script: HandScript;
  drill: Drill;
  window: HandWindow;
  /** What was chosen in the rig check, of which the hand feels the guide; null or absent = as it should be. */
  choices?: RigChoices | null;
  /** 0 to 2^32 - 1. Drives the tremor. */
  seed: number;
}

const DEFAULT_HEIGHT_MM = 1.5;
const FREE_SPEED_MM_PER_S = 100;
const LONGEST_WAIT_S = 10;
/** How far ahead of the axis the metal must be open to call the arc through: inside the edge that it stands over, mm. */
const LOOK_AHEAD_MM = 0.15;

/**
 * Plays a hand script on a drill, one tick at a time. Pure: the same script, drill, window, seed and sight give the same
 * ticks. Throws RangeError where the script asks for a speed of a window that does not exist.
 */
export function createScriptedHand({ script, drill, window, choices, seed }: ScriptedHandOptions): ScriptedHand {
  const path = pathGeometry(drill.path);
  const { tremorMm = 0, heightTremorMm = 0, leanTremorDeg = 0, wander, bearsLeftMm = 0, reactionS = 0 } = script.habits ?? {};
  const rig = choices ?? rightChoices(drill);
  const random = { counter: seed | 0 };
  const tremor = Array.from({ length: 5 }, () => createTremor(random));
  const tickOut: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };

  let tick = 0;
  let stepIndex = -1;
  let spot: Spot = { alongMm: 0, xMm: 0, yMm: 0, headingRad: 0 };
  let heightMm = DEFAULT_HEIGHT_MM;
  let travelAngleDeg = 0;
  let workAngleDeg = 0;
  let trigger = false;
  let height: Ramp | null = null;
  let travel: Ramp | null = null;
  let work: Ramp | null = null;
  let aboutTip = false;
  let glide: (Glide & { to: Spot; from: Spot }) | null = null;
  let waitedTicks = 0;
  let reactingTicks = -1;
  let done = false;

  /** Begins steps until one takes time. */
  function begin(): void {
    for (;;) {
      stepIndex++;
      const step = script.steps[stepIndex];
      if (!step) {
        done = true;
        return;
      }
      if (!beginStep(step)) return;
    }
  }

  /** True where the step is over at once. */
  function beginStep(step: HandStep): boolean {
    switch (step.do) {
      case 'place': {
        const target = spotOf(step.at, path, spot);
        const goesTo = step.heightMm ?? heightMm;
        if (stepIndex === 0) {
          spot = target;
          heightMm = goesTo;
          return true;
        }
        if (goesTo !== heightMm) height = startRamp(heightMm, goesTo, 0.5);
        beginGlide(target, step.speed ? speedMmPerS(step.speed, window) : FREE_SPEED_MM_PER_S, 0);
        return false;
      }
      case 'trigger':
        trigger = step.on;
        return true;
      case 'wait':
        waitedTicks = 0;
        reactingTicks = -1;
        return false;
      case 'move':
        beginGlide(spotOf(step.to, path, spot), speedMmPerS(step.speed, window), glide?.speedMmPerS ?? 0);
        return false;
      case 'lean':
        aboutTip = step.about === 'tip';
        if (step.travelAngleDeg !== undefined) travel = startRamp(travelAngleDeg, step.travelAngleDeg, step.overS);
        if (step.workAngleDeg !== undefined) work = startRamp(workAngleDeg, step.workAngleDeg, step.overS);
        return step.meanwhile === true;
      case 'height':
        height = startRamp(heightMm, step.heightMm, step.overS);
        return step.meanwhile === true;
    }
  }

  function beginGlide(to: Spot, targetMmPerS: number, fromMmPerS: number): void {
    const from = spot;
    const along = from.alongMm !== null && to.alongMm !== null;
    const lengthMm = along ? abs(to.alongMm! - from.alongMm!) : distanceMm(from, to);
    const next = script.steps
      .slice(stepIndex + 1)
      .find((step) => (step.do !== 'lean' && step.do !== 'height') || step.meanwhile !== true);
    const goesOn = along && next?.do === 'move' && continues(from.alongMm!, to, spotOf(next.to, path, to));
    const endMmPerS = goesOn && next?.do === 'move' ? speedMmPerS(next.speed, window) : 0;
    const slowAt = along ? corners(path, from.alongMm!, to.alongMm!) : [];
    glide = { lengthMm, doneMm: 0, speedMmPerS: fromMmPerS, targetMmPerS, endMmPerS, slowAt, from, to };
  }

  /** One tick of the step in hand; true once it is over. */
  function advanceStep(step: HandStep, sight: HandSight): boolean {
    if (step.do === 'wait') return waitOver(step, sight);
    if (step.do === 'lean') return rampEnded(travel) && rampEnded(work);
    if (step.do === 'height') return rampEnded(height);
    if (!glide) return true;
    const over = advanceGlide(glide);
    spot = spotOn(glide, path);
    if (over && glide.endMmPerS === 0) glide.speedMmPerS = 0;
    return over && (step.do === 'move' || rampEnded(height));
  }

  /** About the tip, the place where the axis meets the plate goes the other way. */
  function leanTo(travelDeg: number): void {
    const byMm = heightMm * (tan(travelAngleDeg * RAD_PER_DEG) - tan(travelDeg * RAD_PER_DEG));
    travelAngleDeg = travelDeg;
    if (aboutTip && spot.alongMm !== null) spot = { alongMm: spot.alongMm + byMm, ...path.pointAt(spot.alongMm + byMm) };
  }

  function waitOver(step: Extract<HandStep, { do: 'wait' }>, sight: HandSight): boolean {
    waitedTicks++;
    if (step.for === 'seconds') return waitedTicks >= (step.seconds ?? 0) * TICK_HZ;
    if (reactingTicks >= 0) return ++reactingTicks >= reactionS * TICK_HZ;
    if (waitedTicks >= (step.atMostS ?? LONGEST_WAIT_S) * TICK_HZ) return true;
    const seen = sight.transferred && (step.for === 'arc' || through(sight));
    if (!seen) return false;
    reactingTicks = 0;
    return reactionS === 0;
  }

  function through(sight: HandSight): boolean {
    const lean = leanDeg(spot.headingRad, travelAngleDeg, workAngleDeg);
    const tip = heldTip(lean, 0, 0);
    const x = tip.xMm - tan(lean.x * RAD_PER_DEG) * heightMm + LOOK_AHEAD_MM * cos(spot.headingRad);
    const y = tip.yMm - tan(lean.y * RAD_PER_DEG) * heightMm + LOOK_AHEAD_MM * sin(spot.headingRad);
    return sight.isOpenAlongAxis(x, y, lean.x, lean.y);
  }

  /** Where the tip is: the place of a script is where the axis meets the plate; under a lean the tip is beside it; a guide may stop it. */
  function heldTip(lean: { x: number; y: number }, offXMm: number, offYMm: number): PointMm {
    const sideMm = wanderMm() + bearsLeftMm;
    const xMm = spot.xMm - sideMm * sin(spot.headingRad) + tan(lean.x * RAD_PER_DEG) * heightMm + offXMm;
    const yMm = spot.yMm + sideMm * cos(spot.headingRad) + tan(lean.y * RAD_PER_DEG) * heightMm + offYMm;
    return holdToGuide(path, drill.guide, rig.guideOffsetMm, rig, xMm, yMm);
  }

  function wanderMm(): number {
    if (!wander || spot.alongMm === null || spot.alongMm <= 0) return 0;
    return wander.amplitudeMm * sin((TAU * spot.alongMm) / wander.wavelengthMm);
  }

  function pose(): HandTick {
    const lean = leanDeg(spot.headingRad, travelAngleDeg, workAngleDeg);
    const leanXDeg = lean.x + leanTremorDeg * tremor[3].at(tick);
    const leanYDeg = lean.y + leanTremorDeg * tremor[4].at(tick);
    const tipMm = heightMm + heightTremorMm * tremor[2].at(tick);
    const { xMm, yMm } = heldTip(lean, tremorMm * tremor[0].at(tick), tremorMm * tremor[1].at(tick));
    return quantiseHand({ xMm, yMm, heightMm: tipMm, leanXDeg, leanYDeg, trigger }, tickOut);
  }

  begin();
  return {
    get done() {
      return done && rampEnded(height) && rampEnded(travel) && rampEnded(work);
    },
    next(sight) {
      tick++;
      if (!done && advanceStep(script.steps[stepIndex], sight)) begin();
      if (height && !rampEnded(height)) heightMm = advanceRamp(height);
      if (travel && !rampEnded(travel)) leanTo(advanceRamp(travel));
      if (work && !rampEnded(work)) workAngleDeg = advanceRamp(work);
      return pose();
    },
  };
}
