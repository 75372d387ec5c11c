import type { HandTick, SimulationSetup } from '../../sim-core/index.ts';
import { cos, PI, sin } from '../../sim-core/math/elementary.ts';
import { nextUnit, type RandomState } from '../../sim-core/math/random.ts';
import { fitFor } from '../../sim-core/physics/rig-fit.ts';
import { quantiseHand } from '../../sim-core/run/hand-input.ts';

/** A run that is the same wherever it is stepped: a setup and the hand of every tick. Imports nothing but the core. */
export interface ScriptedRun {
  name: string;
  setup: SimulationSetup;
  hand: readonly HandTick[];
}

const SECOND = 240;

function handOf(ticks: number, poseAt: (seconds: number) => Parameters<typeof quantiseHand>[0]): HandTick[] {
  return Array.from({ length: ticks }, (_, tick) => quantiseHand(poseAt(tick / SECOND)));
}

const setup = (change: Partial<SimulationSetup>): SimulationSetup => ({
  material: 'mild-steel',
  thicknessMm: 6,
  lengthMm: 60,
  widthMm: 40,
  rig: '60',
  currentA: 45,
  seed: 7,
  ...change,
});

/** Edge start, upright, then along the middle of the plate and off its far side. */
function straightCut(): ScriptedRun {
  const hand = handOf(5 * SECOND, (s) => ({
    xMm: s < 1 ? 0 : (s - 1) * 16,
    yMm: 20,
    heightMm: 1.5,
    leanXDeg: 0,
    leanYDeg: 0,
    trigger: s > 0.25 && s < 4.9,
  }));
  return { name: 'straight cut from the edge', setup: setup({}), hand };
}

/** A ring cut from thin stainless steel, so that its middle comes away. */
function ringCut(): ScriptedRun {
  const hand = handOf(5 * SECOND, (s) => {
    const turn = s < 1.2 ? 0 : ((s - 1.2) / 2.4) * 2 * PI;
    return {
      xMm: 30 + 9 * cos(turn),
      yMm: 20 + 9 * sin(turn),
      heightMm: 1.5,
      leanXDeg: 4 * sin(turn),
      leanYDeg: -4 * cos(turn),
      trigger: s > 0.1 && s < 4,
    };
  });
  const plate = { material: 'stainless-steel', thicknessMm: 3, currentA: 40, rig: '40', supports: [{ xMm: 3, yMm: 3 }] } as const;
  return { name: 'ring whose middle falls', setup: setup({ ...plate, supports: [...plate.supports] }), hand };
}

/** A slow bevel through thick metal past a hole that was there before. */
function bevelPastHole(): ScriptedRun {
  const hole = [12, 24].flatMap((x) => [14, 26].map((y) => ({ xMm: x, yMm: y })));
  const cutouts = [[hole[0], hole[2], hole[3], hole[1]].flatMap((point) => (point ? [point] : []))];
  const hand = handOf(6 * SECOND, (s) => ({
    xMm: s < 2 ? 0 : (s - 2) * 7,
    yMm: 20,
    heightMm: 2,
    leanXDeg: 3,
    leanYDeg: 25,
    trigger: true,
  }));
  return { name: 'bevel past a hole', setup: setup({ thicknessMm: 12, rig: '100', currentA: 90, cutouts }), hand };
}

/** No skill at all: the hand wanders in every direction, dips, leans and lets go, over the plate and beside it. */
function wandering(): ScriptedRun {
  const random: RandomState = { counter: 20 };
  let [x, y, height, leanX, leanY, trigger] = [5, 5, 2, 0, 0, false];
  const step = (size: number) => (nextUnit(random) - 0.5) * size;
  const hand = handOf(6 * SECOND, () => {
    x += step(0.6) + 0.03;
    y += step(0.6) + 0.02;
    height = Math.max(0, height + step(0.4));
    leanX += step(2);
    leanY += step(2);
    if (nextUnit(random) < 0.01) trigger = !trigger;
    return { xMm: x, yMm: y, heightMm: height, leanXDeg: leanX, leanYDeg: leanY, trigger };
  });
  return {
    name: 'wandering hand',
    setup: setup({ material: 'aluminium', thicknessMm: 5, currentA: 55, seed: 4294967295 }),
    hand,
  };
}

/** Everything that chance has a hand in: wet gas, worn parts, a rusty clamp on a piece that will fall, two plates, gaps, a rolling pierce. */
function troubledRig(): ScriptedRun {
  const fit = {
    ...fitFor('gaps', 60),
    supplyBar: 4.4,
    gas: 'wet' as const,
    clamp: { xMm: 55, yMm: 35, surface: 'rust' as const },
    wear: { electrodePitMm: 1.1, boreGrowthMm: 0.12, shieldDamage: 0.6, spatterLoad: 0.2 },
  };
  const slot = [24, 30].flatMap((x) => [12, 28].map((y) => ({ xMm: x, yMm: y })));
  const cutouts = [[slot[0], slot[2], slot[3], slot[1]].flatMap((point) => (point ? [point] : []))];
  const hand = handOf(6 * SECOND, (s) => ({
    xMm: s < 2.5 ? 10 : 10 + (s - 2.5) * 17,
    yMm: 20,
    heightMm: s < 2.5 ? 3 : 1.5,
    leanXDeg: s < 2.5 ? 45 - 18 * s : 0,
    leanYDeg: 0,
    trigger: s > 0.1 && s % 2.2 < 2,
  }));
  const rig = { currentA: 60, fit, cutouts, airGap: { fromMm: 3, toMm: 3.6 }, supports: [{ xMm: 3, yMm: 3 }] };
  return { name: 'troubled rig on two plates with a gap', setup: setup(rig), hand };
}

/** A groove, pushed, in two weaving passes. */
function groove(): ScriptedRun {
  const hand = handOf(5 * SECOND, (s) => ({
    xMm: 10 + (s % 2.5) * 14,
    yMm: 20 + 1.5 * sin(s * 9),
    heightMm: 3,
    leanXDeg: -40,
    leanYDeg: 5 * sin(s * 4),
    trigger: s > 0.05 && s < 4.9,
  }));
  return { name: 'groove in two passes', setup: setup({ thicknessMm: 10, fit: fitFor('gouge', 45), surface: 'paint' }), hand };
}

export function scriptedRuns(): ScriptedRun[] {
  return [straightCut(), ringCut(), bevelPastHole(), wandering(), troubledRig(), groove()];
}
