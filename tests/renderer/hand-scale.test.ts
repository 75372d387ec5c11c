// The hand is measured by strokes along a known length: what counts, what comes out, when the system's acceleration is told.
import { describe, expect, test } from 'vitest';
import type { KeptHandScale } from '../../electron/contract.ts';
import { CARD_LENGTH_MM, CARD_WIDTH_MM } from '../../renderer/calibration/card-size.ts';
import { agreement, measureHand, type Stroke, strokeFault } from '../../renderer/calibration/hand-strokes.ts';
import { runHandWords } from '../../renderer/calibration/run-hand-words.ts';
import { FIRST_HAND_SETTINGS } from '../../renderer/input/first-hand-settings.ts';
import { isAccelerated, scaleForRun, scaleOf, withScale } from '../../renderer/input/hand-scale.ts';
import { runScale } from '../../renderer/input/hand-setup.ts';

const stroke = (netPx: number, seconds: number, pathPx = netPx * 1.01): Stroke => ({ netPx, pathPx, seconds });
const measured: KeptHandScale = {
  device: 'mouse',
  measuredAt: '2030-01-31T09:45:00.000Z',
  pxPerMm: 10,
  spread: 0.02,
  acceleration: 0.01,
  raw: true,
  personId: null,
  place: '1280x720@1',
  screenPxPerMm: 3.78,
  restTiltXDeg: 0,
  restTiltYDeg: 0,
};

test('a bank card is an ID-1 card of ISO/IEC 7810', () => {
  expect([CARD_LENGTH_MM, CARD_WIDTH_MM]).toEqual([85.6, 53.98]);
});

describe('strokes', () => {
  test('three that agree give px for a mm of the hand', () => {
    const hand = measureHand([stroke(856, 1.5), stroke(856, 4), stroke(856, 0.5)], CARD_LENGTH_MM);
    expect(hand).toEqual({ pxPerMm: 10, spread: 0, acceleration: 0 });
    expect(agreement(hand)).toBe('close');
  });

  test('spread is of all three, acceleration of slow against fast; above a tenth it is told', () => {
    const steady = measureHand([stroke(1000, 1.5), stroke(980, 4), stroke(1020, 0.5)], 100);
    expect(steady.spread).toBeCloseTo(0.04, 9);
    expect(steady.acceleration).toBeCloseTo(0.04, 9);
    expect([agreement(steady), isAccelerated(steady)]).toEqual(['fair', false]);
    const spedUp = measureHand([stroke(1000, 1.5), stroke(800, 4), stroke(1200, 0.5)], 100);
    expect(spedUp.acceleration).toBeCloseTo(0.4, 9);
    expect([agreement(spedUp), isAccelerated(spedUp)]).toEqual(['poor', true]);
    const at = (share: number) =>
      measureHand([stroke(1000, 1), stroke(1000 - share * 500, 4), stroke(1000 + share * 500, 0.4)], 100);
    expect([isAccelerated(at(0.099)), isAccelerated(at(0.101))]).toEqual([false, true]);
  });

  test('a stroke that is too short, goes back and forth, or has the wrong pace does not count', () => {
    expect(strokeFault('usual', stroke(12, 1), [])).toBe('short');
    expect(strokeFault('usual', stroke(400, 1, 700), [])).toBe('back-and-forth');
    expect(strokeFault('usual', stroke(400, 1), [])).toBeNull();
    expect(strokeFault('slow', stroke(400, 1), [stroke(400, 1)])).toBe('not-slow');
    const before = [stroke(400, 1), stroke(400, 4)];
    expect(strokeFault('fast', stroke(400, 2), before)).toBe('not-fast');
    expect(strokeFault('fast', stroke(400, 0.8), before)).toBeNull();
  });

  test('fewer strokes or no length are an error, not a figure', () => {
    expect(() => measureHand([stroke(400, 1)], 100)).toThrow('not by 1');
    expect(() => measureHand([stroke(400, 1), stroke(400, 4), stroke(400, 1)], 0)).toThrow('above 0 mm');
  });
});

describe('keeping', () => {
  test('it is kept for a person, a device and a screen, and a new one takes the place of the old', () => {
    const first = withScale(FIRST_HAND_SETTINGS, measured);
    const pen = withScale(first, { ...measured, device: 'pen', pxPerMm: 4 });
    const again = withScale(pen, { ...measured, pxPerMm: 12 });
    expect(again.scales.map(({ device, pxPerMm }) => [device, pxPerMm])).toEqual([
      ['pen', 4],
      ['mouse', 12],
    ]);
    expect(scaleOf(again, null, 'mouse', measured.place)?.pxPerMm).toBe(12);
    expect(scaleOf(again, null, 'mouse', '1920x1080@1')).toBeNull();
    expect(scaleOf(again, '00000000-0000-4000-8000-000000000001', 'mouse', measured.place)).toBeNull();
  });

  test('where there is room for no more the oldest goes', () => {
    const places = Array.from({ length: 4 }, (_, n) => ({ ...measured, place: `${n}x1@1` }));
    const full = places.reduce((settings, scale) => withScale(settings, scale, 3), FIRST_HAND_SETTINGS);
    expect(full.scales.map(({ place }) => place)).toEqual(['1x1@1', '2x1@1', '3x1@1']);
  });
});

describe('with a run', () => {
  const words = (change: Partial<KeptHandScale>, applied = true) =>
    runHandWords({ kind: 'mouse', name: 'mouse' }, scaleForRun({ ...measured, ...change }, applied));

  test('the assessor reads whether the hand was one to one, when it was measured and with what', () => {
    expect(words({})).toBe('Hand scale 1:1 measured on Jan 31, 2030, mouse, strokes within 2.0%.');
    expect(words({ acceleration: 0.23 })).toContain('not 1:1: slow and fast strokes differed by 23%');
    expect(words({}, false)).toContain('not used in this run');
    expect(runHandWords({ kind: 'mouse', name: 'mouse' }, null)).toBe('Hand scale not calibrated, mouse.');
    expect(runHandWords({ kind: 'keyboard', name: 'keyboard' }, null)).toContain('keyboard');
    expect(runHandWords({ kind: 'script', name: 'too-fast' }, null)).toContain('synthetic');
  });

  test('what is kept is that of the device that moves the torch, whichever pulls the trigger', () => {
    const setup = { settings: FIRST_HAND_SETTINGS, mouse: measured, pen: null };
    expect(runScale(setup, { device: 'keyboard', movedBy: 'mouse' })).toMatchObject({ device: 'mouse', applied: true });
    expect(runScale(setup, { device: 'mouse', movedBy: 'keyboard' })).toBeNull();
    expect(
      runScale({ ...setup, settings: { ...FIRST_HAND_SETTINGS, oneToOne: false } }, { device: 'mouse', movedBy: 'mouse' })
        ?.applied,
    ).toBe(false);
  });
});
