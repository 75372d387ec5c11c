// Every device at every shipped drill: what the drill asks of a hand is asked of the device, through the page's real listeners. What a
// device cannot do fails here by the name of the movement. How well a hand does it is the business of other tests.
import { afterEach, describe, expect, test } from 'vitest';
import type { HandSettings, KeptHandScale } from '../../electron/contract.ts';
import { handLimits } from '../../renderer/bench/hand-limits.ts';
import { leanBetweenDeg, leanRoomDeg, leanTarget } from '../../renderer/bench/lean-target.ts';
import { strikeHeightMm } from '../../renderer/bench/start-guidance.ts';
import { waitingPose } from '../../renderer/bench/waiting-pose.ts';
import { limitsFor } from '../../renderer/input/hand-pose.ts';
import { isTextKey } from '../../renderer/text/say.ts';
import { type Drill, pathGeometry } from '../../sim-core/index.ts';
import { DRILL_FILES, shippedDrill } from '../scenarios/drill-files.ts';
import { type BenchStandIn, standInBench } from './bench-stand-in.ts';
import { type Driver, keyDriver, mouseDriver, NEAR, padDriver, penDriver, twoHanded } from './hand-drivers.ts';

interface Device {
  name: string;
  settings?: Partial<HandSettings>;
  measured?: KeptHandScale['device'];
  driver(bench: BenchStandIn): Driver;
}

const FULL_PEN = { tilt: true, secondButton: true };
const PLAIN_PEN = { tilt: true, secondButton: false };
const DEVICES: readonly Device[] = [
  { name: 'mouse', driver: (bench) => mouseDriver(bench) },
  { name: 'mouse, measured', measured: 'mouse', driver: (bench) => mouseDriver(bench, { measured: true }) },
  { name: 'pen, two buttons', driver: (bench) => penDriver(bench, FULL_PEN) },
  { name: 'pen, measured', measured: 'pen', driver: (bench) => penDriver(bench, FULL_PEN) },
  {
    name: 'pen, two buttons, fired by the barrel',
    settings: { penTrigger: 'barrel' },
    driver: (bench) => penDriver(bench, FULL_PEN),
  },
  { name: 'pen, one button', driver: (bench) => penDriver(bench, PLAIN_PEN) },
  {
    name: 'pen, one button, fired by the barrel',
    settings: { penTrigger: 'barrel' },
    driver: (bench) => penDriver(bench, PLAIN_PEN),
  },
  { name: 'pen that knows no tilt', driver: (bench) => penDriver(bench, { tilt: false, secondButton: true }) },
  { name: 'gamepad', driver: (bench) => padDriver(bench) },
  { name: 'keyboard', driver: (bench) => keyDriver(bench) },
  {
    name: 'mouse moves, keys lean',
    settings: { leansWith: 'keyboard' },
    driver: (bench) => twoHanded(mouseDriver(bench), keyDriver(bench, { leansOnly: true })),
  },
  {
    name: 'mouse moves, gamepad leans',
    settings: { leansWith: 'gamepad' },
    driver: (bench) => twoHanded(mouseDriver(bench), padDriver(bench, { leansOnly: true })),
  },
  {
    name: 'keys move, mouse leans',
    settings: { leansWith: 'mouse' },
    driver: (bench) => twoHanded(keyDriver(bench), mouseDriver(bench, { leansOnly: true })),
  },
  {
    name: 'pen moves, gamepad leans',
    settings: { leansWith: 'gamepad' },
    driver: (bench) => twoHanded(penDriver(bench, PLAIN_PEN), padDriver(bench, { leansOnly: true })),
  },
  {
    name: 'gamepad moves, pen leans',
    settings: { leansWith: 'pen' },
    driver: (bench) => twoHanded(padDriver(bench), penDriver(bench, PLAIN_PEN)),
  },
];

const DRILLS = DRILL_FILES.map((file) => shippedDrill(file.replace('.json', '')));
/** Along a guide the way is followed; freehand a few places will do. */
const GUIDED_STEP_MM = 8;
/** A rolling pierce begins leant over to the side, and half way down. */
const ROLL_LEAN_DEG = 45;

const middle = ({ low, high }: { low: number; high: number }) => (low + high) / 2;

let bench: BenchStandIn | null = null;
afterEach(() => {
  bench?.close();
  bench = null;
});

/** From where the torch waits to the end of the line and the next pull, as the drill wants it done. */
async function cut(drill: Drill, bench: BenchStandIn, driver: Driver): Promise<void> {
  const path = pathGeometry(drill.path);
  const room = leanRoomDeg(drill.intended, drill.tolerances.leanDeg) + NEAR.leanDeg;
  const holds = (heightMm: number, sMm: number, trigger: boolean) => {
    const pose = bench.pose();
    expect(Math.abs(pose.heightMm - heightMm)).toBeLessThanOrEqual(NEAR.heightMm + 1e-9);
    expect(leanBetweenDeg(pose, leanTarget(path, drill.intended, sMm))).toBeLessThanOrEqual(room);
    expect(pose.trigger).toBe(trigger);
  };
  const go = async (sMm: number) => {
    const { xMm, yMm } = path.pointAt(sMm);
    await driver.to(xMm, yMm);
    expect(Math.hypot(bench.pose().xMm - xMm, bench.pose().yMm - yMm)).toBeLessThanOrEqual(NEAR.placeMm + 1e-9);
  };
  const asked = (sMm: number) => leanTarget(path, drill.intended, sMm);
  const rolls = drill.start === 'rolling-pierce';
  const strikeMm = middle(strikeHeightMm(drill));
  const cutMm = middle(drill.tolerances.standOffMm);

  await go(0);
  driver.lean(rolls ? ROLL_LEAN_DEG : asked(0).leanXDeg, rolls ? 0 : asked(0).leanYDeg);
  driver.height(strikeMm);
  await go(0);
  driver.pull(true);
  expect(bench.pose()).toMatchObject({ trigger: true });
  // With the arc burning, in the middle of a pierce.
  if (rolls) driver.lean(0, 0);
  if (Math.abs(strikeMm - cutMm) > NEAR.heightMm) driver.height(cutMm);
  await go(0);
  holds(cutMm, 0, true);
  const steps = drill.guide.kind === 'freehand' ? 3 : Math.ceil(path.lengthMm / GUIDED_STEP_MM);
  for (let n = 1; n <= steps; n += 1) {
    const sMm = (n / steps) * path.lengthMm;
    const { leanXDeg, leanYDeg } = asked(sMm);
    await go(sMm);
    if (leanBetweenDeg(bench.pose(), { leanXDeg, leanYDeg }) > NEAR.leanDeg) driver.lean(leanXDeg, leanYDeg);
    await go(sMm);
    holds(cutMm, sMm, true);
  }
  driver.pull(false);
  holds(cutMm, path.lengthMm, false);
  // A cut that was lost is taken up again, and a second pass begins.
  for (const on of [true, false]) {
    driver.pull(on);
    expect(bench.pose().trigger).toBe(on);
  }
}

describe.each(DEVICES)('$name', ({ settings, measured, driver: driverOf }) => {
  test.each(DRILLS)('$id', async (drill) => {
    const limits = handLimits(drill, null);
    bench = standInBench(waitingPose(drill, limits), limits, settings, measured ?? null);
    await cut(drill, bench, driverOf(bench));
  });

  test('rolls upright, ends the run', () => {
    const drill = shippedDrill('hanger-tab-straight-6');
    const limits = handLimits(drill, null);
    bench = standInBench(waitingPose(drill, limits), limits, settings, measured ?? null);
    const driver = driverOf(bench);
    driver.lean(30, -20);
    driver.upright?.();
    if (driver.upright) {
      bench.wait(2500);
      expect(bench.pose()).toMatchObject({ leanXDeg: 0, leanYDeg: 0 });
    }
    driver.end?.();
    expect(bench.ended).toBe(driver.end ? 1 : 0);
  });
});

test('movements that the browser gathered into one event go on one by one, each at the moment the device gave', () => {
  const limits = limitsFor(160, 90);
  bench = standInBench({ xMm: 0, yMm: -10, heightMm: 8, leanXDeg: 0, leanYDeg: 0, trigger: false }, limits);
  bench.wait(100);
  const parts = [71.25, 79.5, 88, 96.75].map((timeStamp, n) => ({
    timeStamp,
    pointerType: 'mouse',
    clientX: 40 * (n + 1),
    clientY: 40,
    movementX: 40,
    movementY: 0,
    buttons: 0,
    shiftKey: false,
  }));
  bench.tell('pointerrawupdate', { ...parts[3] }, parts);
  expect(bench.sent.map(({ atMs, pose }) => [atMs, pose.xMm])).toEqual([
    [71.25, 10],
    [79.5, 20],
    [88, 30],
    [96.75, 40],
  ]);
});

test('a pointer that is held is let go by a click of the right button, not by a lean, and not while the arc burns', async () => {
  const limits = limitsFor(160, 90);
  bench = standInBench({ xMm: 20, yMm: 20, heightMm: 8, leanXDeg: 0, leanYDeg: 0, trigger: false }, limits, {}, 'mouse');
  const driver = mouseDriver(bench, { measured: true });
  await driver.to(30, 30);
  driver.lean(10, 0);
  expect(bench.held()).toBe(true);
  driver.pull(true);
  driver.lean(10, 0);
  expect(bench.held()).toBe(true);
  driver.pull(false);
  driver.lean(10, 0);
  expect(bench.held()).toBe(false);
});

test('the bench tells of every device how it moves, lowers, leans, fires and ends', () => {
  const wanted = ['move', 'height', 'lean', 'trigger', 'end'].flatMap((row) =>
    ['mouse', 'keyboard', 'gamepad', 'pen'].map((device) => `keys.${row}.${device}`),
  );
  expect(wanted.filter((key) => !isTextKey(key))).toEqual([]);
});
