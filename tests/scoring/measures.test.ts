// Each measure on runs told without physics: full marks for what is right, less and less for what is not, evidence where it was.
import { describe, expect, test } from 'vitest';
import type { FaultId, MeasureId, MeasureScore, Score } from '../../sim-core/index.ts';
import { shippedDrill } from '../scenarios/drill-files.ts';
import { goodRun, scoreTold, type Told, WINDOW } from './hand-made-runs.ts';

const drill = shippedDrill('hanger-tab-straight-6');
const LENGTH = 160;
const good = goodRun(LENGTH);

function measure(score: Score, id: MeasureId): MeasureScore {
  return score.measures.find((candidate) => candidate.id === id) as MeasureScore;
}

function marks(id: MeasureId, runs: readonly Told[]): number[] {
  return runs.map((told) => measure(scoreTold(drill, told), id).mark);
}

function expectFalling(found: readonly number[]): void {
  expect(found[0]).toBe(100);
  for (let i = 1; i < found.length; i++) expect(found[i], `${found}`).toBeLessThan(found[i - 1]);
  expect(found.at(-1)).toBe(0);
}

/** The run at another constant speed. */
function atSpeed(mmPerS: number): Told {
  const end = 0.5 + (LENGTH + 6) / mmPerS;
  return { seconds: end + 0.5, alongMm: (t) => Math.max(0, Math.min((t - 0.5) * mmPerS, LENGTH + 6)), arcOn: (t) => t < end };
}

test('a run without fault has 100 for everything, passes, and has nothing to change', () => {
  const score = scoreTold(drill, good);
  expect(score).toMatchObject({ score: 100, passed: true, reasons: [], firstThingToChange: null });
  for (const { mark, evidence } of score.measures) expect([mark, evidence]).toEqual([100, []]);
});

test.each<[MeasureId, string, Told[]]>([
  ['travel-speed', 'faster', [15, 20.5, 22, 30].map(atSpeed)],
  ['travel-speed', 'slower', [15, 9.5, 8, 5].map(atSpeed)],
  ['spark-angle', 'flatter', [30, 34, 40, 46].map((deg) => ({ ...good, sparkAngleDeg: () => deg }))],
  ['spark-angle', 'steeper', [15, 11, 5, -1].map((deg) => ({ ...good, sparkAngleDeg: () => deg }))],
  ['squareness', 'leaning more', [8, 10, 15, 25].map((deg) => ({ ...good, workAngleDeg: () => deg }))],
  ['stand-off', 'higher', [3, 3.8, 4.5, 5.1].map((mm) => ({ ...good, standOffMm: () => mm }))],
  ['stand-off', 'lower', [0.8, 0.5, 0.2, 0].map((mm) => ({ ...good, standOffMm: () => mm }))],
  ['line-following', 'farther left', [1, 1.3, 1.7, 2.1].map((mm) => ({ ...good, offsetMm: () => mm }))],
  ['line-following', 'farther right', [1, 1.3, 1.7, 2.1].map((mm) => ({ ...good, offsetMm: () => -mm }))],
])('%s falls as the hand is %s', (id, _how, runs) => {
  expectFalling(marks(id, runs));
});

describe('evidence', () => {
  test('stands at the ticks, the place and the figure of the fault', () => {
    const wrong = { ...good, offsetMm: (t: number) => (t > 4 && t < 5 ? 2.2 : 0) };
    const [first, ...rest] = measure(scoreTold(drill, wrong), 'line-following').evidence;
    expect(rest).toEqual([]);
    expect(first).toMatchObject({ unit: 'mm', fault: 'line-following.off-line' });
    expect(first.fromTick / 240).toBeCloseTo(4, 1);
    expect(first.toTick / 240).toBeCloseTo(5, 1);
    expect(first.value).toBeCloseTo(2.2, 5);
    expect(first.xMm).toBeGreaterThanOrEqual(3.5 * 15);
    expect(first.xMm).toBeLessThanOrEqual(4.5 * 15);
    expect(first.yMm).toBeCloseTo(62.2, 5);
  });

  test('is told most costly first', () => {
    const wrong = { ...good, workAngleDeg: (t: number) => (t > 2 && t < 3 ? 12 : t > 6 && t < 8 ? -18 : 0) };
    const { evidence, mark } = measure(scoreTold(drill, wrong), 'squareness');
    expect(evidence.map(({ fromTick }) => Math.round(fromTick / 240))).toEqual([6, 2]);
    const lost = evidence.reduce((sum, { lostMarks }) => sum + lostMarks, 0);
    expect(mark).toBeCloseTo(100 - lost, 0);
  });
});

describe('severance', () => {
  const closed = (from: number, to: number): Told => ({ ...good, isOpen: (x) => x < from || x > to });

  test('a stretch left uncut fails the run, whatever the marks', () => {
    const score = scoreTold({ ...drill, rubric: { passMark: 1, measures: [{ id: 'severance', weight: 1 }] } }, closed(60, 63));
    expect(score.passed).toBe(false);
    expect(score.reasons).toEqual([{ kind: 'not-severed', uncutMm: 3 }]);
    const [{ xMm, value, fault }] = score.measures[0].evidence;
    expect(Math.abs(xMm - 61.5)).toBeLessThanOrEqual(0.5);
    expect(value).toBe(3);
    expect(fault).toBe('severance.uncut');
  });

  test('what was crossed without severing and what was never reached beside it are one stretch left uncut', () => {
    // At 15 mm/s from 0.5 s on: it stops 1 mm before the end.
    const short = { ...good, seconds: 0.5 + (LENGTH - 1) / 15, arcOn: () => true, isOpen: (x: number) => x < LENGTH - 2 };
    const { passed, reasons } = scoreTold(drill, short);
    expect(passed).toBe(false);
    expect(reasons).toContainEqual({ kind: 'not-severed', uncutMm: 2 });
  });

  test('counts a bridge that a tap parts as severed', () => {
    expect(scoreTold(drill, closed(60, 60.4)).passed).toBe(true);
  });

  test('falls with what is left, and a groove is worth less than a cut', () => {
    const found = [0, 20, 80, 160].map((mm) => measure(scoreTold(drill, closed(0, mm)), 'severance').mark);
    expect(found).toEqual([...found].sort((a, b) => b - a));
    const groove = scoreTold(drill, { ...good, isOpen: () => false, penetration: () => 0.5 });
    const scratch = scoreTold(drill, { ...good, isOpen: () => false, penetration: () => 0.1 });
    expect(measure(groove, 'severance').mark, 'half through is worth less than half').toBeLessThan(40);
    expect(measure(scratch, 'severance').mark).toBeLessThan(measure(groove, 'severance').mark);
  });

  test('what was never reached is told as such', () => {
    const half = { ...good, seconds: 5, arcOn: () => true };
    const { evidence } = measure(scoreTold(drill, half), 'severance');
    expect(evidence.map(({ fault }) => fault)).toEqual(['severance.not-reached']);
  });
});

describe('edge dwell', () => {
  const waits = (seconds: number): Told => {
    const shifted = goodRun(LENGTH);
    return {
      seconds: shifted.seconds + seconds,
      alongMm: (t) => shifted.alongMm(t - seconds + 0.5),
      arcOn: (t) => t < shifted.seconds + seconds - 1,
    };
  };

  test('is right from the pause the core needs until a little later', () => {
    for (const seconds of [0.5, 0.7, 1]) expect(marks('edge-dwell', [waits(seconds)])).toEqual([100]);
  });

  test.each<[FaultId, number]>([
    ['edge-dwell.left-early', 0.04],
    ['edge-dwell.left-late', 4.5],
  ])('%s', (fault, seconds) => {
    const { mark, evidence, band } = measure(scoreTold(drill, waits(seconds)), 'edge-dwell');
    expect(mark).toBe(0);
    expect(evidence).toMatchObject([{ fault, unit: 's', value: expect.closeTo(seconds, 1) }]);
    expect(band).toEqual({ low: WINDOW.edgeDwellS, high: WINDOW.edgeDwellS + drill.tolerances.lateStartS, unit: 's' });
  });

  test('rolling over the edge without stopping is no pause, however early the arc took hold', () => {
    const rolls: Told = { ...good, alongMm: (t) => -1 + t * 12, seconds: 14.5, arcOn: (t) => t < 14 };
    expect(marks('edge-dwell', [rolls])).toEqual([0]);
  });
});

describe('steadiness', () => {
  const swings = (share: number): Told => ({
    ...good,
    seconds: 12.5,
    alongMm: (t) => (t < 0.5 ? 0 : 15 * (t - 0.5) - ((15 * share) / 4) * Math.sin(4 * (t - 0.5))),
    arcOn: (t) => t < 12,
  });

  test('forgives a little swing of the speed and not a great one', () => {
    const found = marks('steadiness', [0.15, 0.4, 0.6, 0.95].map(swings));
    expect(found[0]).toBe(100);
    expect(found).toEqual([...found].sort((a, b) => b - a));
    expect(found[3]).toBeLessThan(25);
  });

  test('a halt is told as a halt, with its place', () => {
    const halts: Told = {
      ...good,
      seconds: 14.5,
      alongMm: (t) => goodRun(LENGTH).alongMm(t < 4 ? t : t < 6 ? 4 : t - 2),
      arcOn: (t) => t < 14,
    };
    const { mark, evidence } = measure(scoreTold(drill, halts), 'steadiness');
    expect(mark).toBeLessThan(60);
    expect(evidence[0].fault).toBe('steadiness.halted');
    expect(evidence[0].fromTick / 240).toBeCloseTo(4, 0);
    expect(evidence[0].xMm).toBeCloseTo(52.5, 0);
  });
});

describe('the end of the cut', () => {
  const ends = (alongEndMm: number, arcUntil: number): Told => ({
    seconds: arcUntil + 0.5,
    alongMm: (t) => Math.max(0, Math.min((t - 0.5) * 15, alongEndMm)),
    arcOn: (t) => t < arcUntil,
  });

  test.each<[string, Told, FaultId]>([
    ['short of it', ends(150, 10.4), 'end-of-cut.stopped-short'],
    ['the trigger held', ends(166, 16), 'end-of-cut.arc-left-on'],
    ['far past it', ends(190, 13.2), 'end-of-cut.overrun'],
    ['a tab left', { ...good, isOpen: (x) => x < 156 }, 'end-of-cut.tab-left'],
  ])('%s', (_what, told, fault) => {
    const { mark, evidence } = measure(scoreTold(drill, told), 'end-of-cut');
    expect(mark).toBeLessThan(60);
    expect(evidence[0].fault).toBe(fault);
  });

  test('a cut that was lost long before its end leaves no tab: severance tells it', () => {
    const lost = scoreTold(drill, { ...good, isOpen: (x) => x < 60, penetration: (t) => (t < 4 ? 1 : 0.7) });
    expect(measure(lost, 'end-of-cut').evidence).toEqual([]);
    expect(measure(lost, 'severance').mark).toBeLessThan(70);
  });

  test('a drill that stops on the mark wants it hit', () => {
    const slot = shippedDrill('drain-slot-stop-6');
    const at = (mm: number): number => measure(scoreTold(slot, ends(mm, 0.6 + mm / 15)), 'end-of-cut').mark;
    expect(at(80)).toBe(100);
    expect(at(81.5)).toBe(100);
    expect(at(86)).toBeLessThan(60);
    expect(at(76)).toBeLessThan(60);
  });
});
