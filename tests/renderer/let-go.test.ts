// Everything is let go: by a focus that goes elsewhere, a halt, or a dialog. No device may be out of step with the hand afterwards.
import { afterEach, beforeEach, expect, test } from 'vitest';
import { limitsFor } from '../../renderer/input/hand-pose.ts';
import { type BenchStandIn, standInBench } from './bench-stand-in.ts';

const START = { xMm: 0, yMm: 50, heightMm: 8, leanXDeg: 0, leanYDeg: 0, trigger: false };
const STEP_MS = 8;
const TRIGGER = 7;
const END = 9;
let bench: BenchStandIn;
beforeEach(() => {
  bench = standInBench(START, limitsFor(160, 90));
});
afterEach(() => bench.close());

const mouse = (down: boolean) => ({
  pointerType: 'mouse',
  pointerId: 1,
  button: 0,
  buttons: down ? 1 : 0,
  clientX: 0,
  clientY: 0,
});
const press = () => {
  bench.tell('pointerdown', mouse(true));
  bench.tell('mousedown', mouse(true));
};
const pen = (pressure: number) => ({
  ...{ pointerType: 'pen', pointerId: 7, button: -1, clientX: 0, clientY: 0, tiltX: 0, tiltY: 0, twist: 0 },
  ...{ pressure, buttons: pressure > 0 ? 1 : 0 },
});
function holdPad(buttons: readonly number[], axes = [0, 0, 0, 0]): void {
  const of = (n: number) => (buttons.includes(n) ? 1 : 0);
  bench.pad = { axes, buttons: Array.from({ length: 17 }, (_, n) => ({ value: of(n), pressed: of(n) === 1 })) };
  bench.wait(STEP_MS);
}
const fired = () => bench.pose().trigger;

test('a button of the mouse that was let go elsewhere: the next press pulls the trigger', () => {
  press();
  expect(fired()).toBe(true);
  bench.tell('blur', {});
  expect(fired()).toBe(false);
  press();
  expect(fired()).toBe(true);
});

test('a halt lets go of a pen: its tip fires no more until it was lifted', () => {
  bench.tell('pointerrawupdate', pen(0));
  bench.tell('pointerdown', pen(0.8));
  expect(fired()).toBe(true);
  bench.letGoAll();
  bench.tell('pointerrawupdate', pen(0.8));
  expect(fired()).toBe(false);
  bench.tell('pointerup', pen(0));
  bench.tell('pointerdown', pen(0.8));
  expect(fired()).toBe(true);
});

test('while a dialog is open no button or stick of the pad reaches the bench, and a button held on over its end neither', () => {
  holdPad([]);
  holdPad([TRIGGER]);
  expect(fired()).toBe(true);
  bench.dialog(true);
  holdPad([TRIGGER]);
  expect(bench.hand.poseAt(bench.nowMs())).toMatchObject({ ...START, trigger: false });
  const before = bench.sent.length;
  for (const button of [TRIGGER, END]) {
    holdPad([button], [1, 0, 0, 0]);
    holdPad([]);
  }
  holdPad([TRIGGER, END]);
  bench.dialog(false);
  bench.wait(10 * STEP_MS);
  expect([bench.sent.length, bench.ended, fired()]).toEqual([before, 0, false]);
  holdPad([]);
  holdPad([TRIGGER]);
  expect(fired()).toBe(true);
});
