// The one thing to change: what cost most, but the cause before its effect.
import { expect, test } from 'vitest';
import { shippedDrill } from '../scenarios/drill-files.ts';
import { goodRun, scoreTold, type Told } from './hand-made-runs.ts';

const drill = shippedDrill('hanger-tab-straight-6');
const good = goodRun(160);

/** At speed from 60 mm on, and from there on nothing is open and no sparks come out below. */
function outrun(): Told {
  const alongMm = (t: number): number => (t < 4.5 ? good.alongMm(t) : 60 + (t - 4.5) * 40);
  return {
    seconds: 7.5,
    alongMm,
    arcOn: (t) => t < 7.2,
    isOpen: (x) => x < 60,
    sparkAngleDeg: (t) => (t < 4.5 ? 20 : Number.NaN),
    penetration: (t) => (t < 4.5 ? 1 : 0.6),
  };
}

test('a cut lost by outrunning the arc names the speed, there', () => {
  const { firstThingToChange, measures } = scoreTold(drill, outrun());
  expect(firstThingToChange).toMatchObject({ measureId: 'travel-speed', key: 'travel-speed.too-fast' });
  const evidence = measures.find(({ id }) => id === 'travel-speed')?.evidence[firstThingToChange?.evidenceIndex ?? -1];
  expect(evidence?.xMm).toBeGreaterThan(58);
});

test('an uncut start after leaving early names the edge', () => {
  const early: Told = { ...good, alongMm: (t) => good.alongMm(t + 0.45), isOpen: (x) => x > 25 };
  expect(scoreTold(drill, early).firstThingToChange).toMatchObject({ measureId: 'edge-dwell', key: 'edge-dwell.left-early' });
});

test('sparks that are too flat while the torch is high name the stand-off', () => {
  const high: Told = { ...good, standOffMm: () => 5, sparkAngleDeg: () => 45 };
  expect(scoreTold(drill, high).firstThingToChange?.measureId).toBe('stand-off');
});

test('slow only where the hand stopped names the stopping', () => {
  const halts: Told = { ...good, seconds: 15, arcOn: (t) => t < 14, alongMm: (t) => good.alongMm(t < 3 ? t : t < 5 ? 3 : t - 2) };
  expect(scoreTold(drill, halts).firstThingToChange).toMatchObject({ measureId: 'steadiness', key: 'steadiness.halted' });
});

test('an outcome without a cause in the run is named itself', () => {
  const unexplained: Told = { ...good, isOpen: (x) => x < 60 || x > 90 };
  expect(scoreTold(drill, unexplained).firstThingToChange).toMatchObject({ measureId: 'severance', key: 'severance.uncut' });
});

test('a run that never began is sent to the line', () => {
  const idle: Told = { seconds: 5, alongMm: () => -10, arcOn: () => false };
  expect(scoreTold(drill, idle).firstThingToChange).toMatchObject({ measureId: 'severance', key: 'severance.not-reached' });
});

test('an arc that went out while the hand waited at the edge names the waiting, however much line was never reached', () => {
  const waits: Told = { seconds: 14, alongMm: (t) => Math.max(0, (t - 6) * 20), arcState: (t) => (t < 5 ? 3 : 0) };
  expect(scoreTold(drill, waits).firstThingToChange).toMatchObject({ measureId: 'edge-dwell', key: 'edge-dwell.left-late' });
});

test('along a guide that is set wrong, the guide is named and not the line', () => {
  const guided = {
    ...drill,
    guide: { kind: 'straight-edge' as const, side: 'left' as const, offsetMm: 8 },
    rubric: {
      passMark: 60,
      measures: [
        { id: 'severance' as const, weight: 1 },
        { id: 'line-following' as const, weight: 3 },
        { id: 'part-size' as const, weight: 1 },
      ],
    },
  };
  const off: Told = { ...good, offsetMm: () => 3, goneAt: (_x, y) => (y > 62 && y < 64 ? 1 : 0) };
  expect(scoreTold(guided, off).firstThingToChange).toMatchObject({ measureId: 'part-size', key: 'part-size.cut-away' });
  const freehand = { ...guided, guide: { kind: 'freehand' as const } };
  expect(scoreTold(freehand, off).firstThingToChange).toMatchObject({ key: 'line-following.off-line' });
});
