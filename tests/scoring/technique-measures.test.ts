// The measures of pierces, grooves, part sizes, openings, parts, rig check and fault finding, on runs told without physics: full
// marks for what is right, less for what is not, and the fault with its place.
import { describe, expect, test } from 'vitest';
import { pierceAnswer } from '../../sim-core/drill/pierce-answer.ts';
import {
  type Drill,
  type MeasureId,
  type MeasureScore,
  neutralChoices,
  parseDrill,
  REMEDY_FOR,
  rightChoices,
  type Score,
} from '../../sim-core/index.ts';
import { shippedDrill } from '../scenarios/drill-files.ts';
import { goodRun, scoreTold, type Told } from './hand-made-runs.ts';

const LENGTH = 160;
const straight = shippedDrill('hanger-tab-straight-6');
const good = goodRun(LENGTH);

/** The straight drill with some of it changed, read as a file is. */
function drillWith(id: MeasureId, change: object): Drill {
  const outcome = id === 'groove-depth' || id === 'fault-finding' ? [] : [{ id: 'severance', weight: 1 }];
  const measures = 'intended' in change ? [{ id: 'groove-depth', weight: 1 }] : outcome;
  const listed = measures.some((measure) => measure.id === id) ? measures : [...measures, { id, weight: 1 }];
  const result = parseDrill(JSON.stringify({ ...straight, ...change, rubric: { passMark: 60, measures: listed } }));
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

function measure(score: Score, id: MeasureId): MeasureScore {
  return score.measures.find((candidate) => candidate.id === id) as MeasureScore;
}

describe('grooves', () => {
  const intended = {
    travelAngleDeg: { low: -47, high: -33 },
    speedMmPerS: { low: 8, high: 20 },
    grooveDepthMm: { low: 1, high: 2 },
  };
  const drill = drillWith('groove-evenness', { intended });
  /** A groove 4 mm wide along the line, as deep as told at each place. */
  const grooved = (depthMm: (x: number) => number, told: Told = good): Told => ({
    ...told,
    isOpen: () => false,
    penetration: () => 0.2,
    goneAt: (x, y, depth) => (Math.abs(y - 60) <= 2 && depth < depthMm(x) ? 1 : 0),
  });

  test('as deep and as even as asked for: full marks, and it passes without being severed', () => {
    const score = scoreTold(
      drill,
      grooved(() => 1.5),
    );
    expect(score).toMatchObject({ score: 100, passed: true, reasons: [] });
  });

  test.each([
    ['groove-depth.shallow', 0.55],
    ['groove-depth.deep', 2.9],
  ])('%s', (fault, depth) => {
    const { mark, evidence } = measure(
      scoreTold(
        drill,
        grooved(() => depth),
      ),
      'groove-depth',
    );
    expect(mark).toBeLessThan(40);
    expect(evidence[0]).toMatchObject({ fault, unit: 'mm' });
  });

  test('a deep place in a groove is told where it is', () => {
    const score = scoreTold(
      drill,
      grooved((x) => (x > 60 && x < 90 ? 3 : 1.5)),
    );
    expect(measure(score, 'groove-depth').mark).toBeCloseTo(86.5, 0);
    const [{ xMm, fault }] = measure(score, 'groove-depth').evidence;
    expect(fault).toBe('groove-depth.deep');
    expect(xMm).toBeGreaterThan(59);
    expect(xMm).toBeLessThan(91);
    const { mark, evidence } = measure(score, 'groove-evenness');
    expect(mark).toBeLessThan(70);
    expect(evidence[0].fault).toBe('groove-evenness.uneven');
  });

  test('a groove that is missing in part does not pass, whatever the marks', () => {
    const score = scoreTold(
      { ...drill, rubric: { ...drill.rubric, passMark: 1 } },
      grooved((x) => (x > 70 && x < 80 ? 0 : 1.5)),
    );
    expect(score.passed).toBe(false);
    expect(score.reasons).toMatchObject([{ kind: 'not-grooved' }]);
  });

  test('a scratch is not even, however even it is', () => {
    expect(
      measure(
        scoreTold(
          drill,
          grooved(() => 0.1),
        ),
        'groove-evenness',
      ).mark,
    ).toBe(0);
  });

  test('no arc, no groove, no marks', () => {
    const { score, passed } = scoreTold(drill, { ...grooved(() => 1.5), arcOn: () => false });
    expect([score, passed]).toEqual([0, false]);
  });
});

describe('the pierce', () => {
  const at = { start: { xMm: 30, yMm: 60 }, segments: [{ kind: 'line', to: { xMm: 130, yMm: 60 } }] };
  const drill = (start: string): Drill => drillWith('pierce', { start, finish: 'stop', path: at });
  const rolling = drill('rolling-pierce');
  const right = pierceAnswer(rolling) as { throughS: number; blowbackMj: number };
  /** Blind for a second, then off; `doses` = dose until then over the core's own. */
  const pierced = (doses: number, told: Partial<Told> = {}): Told => ({
    seconds: 9.5,
    alongMm: (t) => Math.max(0, Math.min((t - 1.4) * 15, 100)),
    arcOn: (t) => t < 8.7,
    penetration: (t) => (t < 1 ? t * 0.9 : 1),
    throughFraction: (t) => (t < 1 ? 0 : 0.3),
    blowbackMj: (t) => doses * right.blowbackMj * Math.min(t, 1),
    travelAngleDeg: (t) => (t < 0.8 ? -45 : 0),
    standOffMm: (t) => (t < 1 ? 3 : 1.5),
    ...told,
  });

  test('leaned, rolled up, off when through: full marks', () => {
    expect(measure(scoreTold(rolling, pierced(1)), 'pierce')).toMatchObject({ mark: 100, evidence: [] });
  });

  test('marks fall with what comes back at the torch', () => {
    const marks = [1, 2, 3, 5, 10, 20, 51].map((doses) => measure(scoreTold(rolling, pierced(doses)), 'pierce').mark);
    expect(marks[0]).toBe(100);
    for (let i = 1; i < marks.length; i++) expect(marks[i]).toBeLessThan(marks[i - 1]);
    expect(marks.at(-1), 'a hole that is through, however dirty, is worth more than none').toBe(30);
  });

  test('a torch held too near and what comes of it are one mistake', () => {
    const onThePlate = { standOffMm: (t: number) => (t < 1 ? 0 : 1.5) };
    const { mark, evidence } = measure(scoreTold(rolling, pierced(51, onThePlate)), 'pierce');
    expect(mark).toBe(30);
    expect(evidence.map(({ fault }) => fault).sort()).toEqual(['pierce.blowback', 'pierce.too-low']);
    expect(evidence.reduce((sum, { lostMarks }) => sum + lostMarks, 0)).toBeCloseTo(70, 6);
    expect(measure(scoreTold(rolling, pierced(1, onThePlate)), 'pierce').mark).toBeLessThan(60);
  });

  test.each<[string, string, Partial<Told>]>([
    ['rolling-pierce', 'pierce.too-upright', { travelAngleDeg: () => 0 }],
    ['rolling-pierce', 'pierce.too-high', { standOffMm: (t) => (t < 1 ? 12 : 1.5) }],
    ['rolling-pierce', 'pierce.left-blind', { penetration: () => 0.5, throughFraction: () => 0 }],
    ['rolling-pierce', 'pierce.left-late', { alongMm: (t) => Math.max(0, Math.min((t - 6) * 40, 100)) }],
    ['stand-off-pierce', 'pierce.too-low', { travelAngleDeg: () => 0 }],
    ['stand-off-pierce', 'pierce.leaning', { standOffMm: (t) => (t < 1 ? 12 : 1.5) }],
    ['contact-pierce', 'pierce.too-high', { travelAngleDeg: () => 0 }],
  ])('%s: %s', (start, fault, told) => {
    const { mark, evidence } = measure(scoreTold(drill(start), pierced(0.5, told)), 'pierce');
    expect(mark).toBeLessThan(75);
    expect(evidence.map((one) => one.fault)).toContain(fault);
  });
});

describe('part size', () => {
  const drill = drillWith('part-size', { guide: { kind: 'straight-edge', side: 'left', offsetMm: 8 } });
  /** A kerf as wide as the core's own is told by another test; here its left face stands so far from the line. */
  const kerf = (leftMm: number): Told => ({ ...good, goneAt: (_x, y) => (y > 59 && y < 60 + leftMm ? 1 : 0) });
  const markOf = (leftMm: number): MeasureScore => measure(scoreTold(drill, kerf(leftMm)), 'part-size');

  test('falls on both sides of where the face belongs, and tells which', () => {
    const widths = [0.25, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 3.5, 4, 4.5];
    const marks = widths.map((width) => markOf(width).mark);
    expect(Math.max(...marks)).toBe(100);
    expect(marks.at(-1)).toBe(0);
    const [evidence] = markOf(4).evidence;
    expect(evidence).toMatchObject({ fault: 'part-size.cut-away', unit: 'mm' });
    // The face stands 1.25 mm farther out: so much more is gone.
    expect(evidence.value - (markOf(2.75).evidence[0]?.value ?? 0)).toBeCloseTo(1.25, 1);
  });

  test('metal that was left on the part is told as such', () => {
    const off: Told = { ...good, offsetMm: () => -3.5, goneAt: (_x, y) => (y > 55.5 && y < 57.5 ? 1 : 0) };
    const { mark, evidence } = measure(scoreTold(drill, off), 'part-size');
    expect(mark).toBe(0);
    expect(evidence[0].fault).toBe('part-size.left-on');
  });
});

describe('openings', () => {
  // Two slots across the line, from 40 to 60 and from 90 to 110 mm.
  const slot = (x: number) => [
    { xMm: x, yMm: 40 },
    { xMm: x + 20, yMm: 40 },
    { xMm: x + 20, yMm: 80 },
    { xMm: x, yMm: 80 },
  ];
  const drill = drillWith('gap-crossing', { plate: { ...straight.plate, cutouts: [slot(40), slot(90)] } });
  const overSlot = (x: number): boolean => (x > 40 && x < 60) || (x > 90 && x < 110);
  /** The arc is back so long after the torch is over metal again. */
  const crossing = (lateS: number): Told => ({
    ...good,
    arcState: (t) => (overSlot(good.alongMm(t)) || overSlot(good.alongMm(t - lateS)) ? 2 : 3),
  });

  test('the arc back in time: full marks, and nothing uncut where there was no metal', () => {
    const score = scoreTold(drill, crossing(0.1));
    expect(measure(score, 'gap-crossing')).toMatchObject({ mark: 100, evidence: [] });
    expect(measure(score, 'severance').mark).toBe(100);
  });

  test('late: the time is told; never: the arc is lost', () => {
    const late = measure(scoreTold(drill, crossing(1)), 'gap-crossing');
    expect(late.mark).toBeLessThan(80);
    expect(late.evidence[0]).toMatchObject({ fault: 'gap-crossing.slow', value: expect.closeTo(1, 0) });
    const lost = scoreTold(drill, { ...good, arcState: (t) => (good.alongMm(t) < 40 ? 3 : 0) });
    expect(measure(lost, 'gap-crossing').mark).toBe(0);
    expect(measure(lost, 'gap-crossing').evidence[0].fault).toBe('gap-crossing.arc-lost');
    expect(measure(lost, 'gap-crossing').evidence[0].xMm).toBeGreaterThan(39);
  });

  test('struck again and again', () => {
    const flickers: Told = {
      ...crossing(0.1),
      arcState: (t) => (overSlot(good.alongMm(t)) || Math.floor(t * 8) % 4 === 0 ? 2 : 3),
    };
    expect(measure(scoreTold(drill, flickers), 'gap-crossing').evidence.map(({ fault }) => fault)).toContain(
      'gap-crossing.struck-often',
    );
  });
});

test('torch parts: what the drill may cost is free; more than that costs, told where it was spent', () => {
  const drill = drillWith('torch-parts', {});
  const allowed = drill.tolerances.spentLifeShare;
  const spends = (share: number): Told => ({ ...good, spentLife: (t) => (t < 5 ? 0 : t > 6 ? share : (t - 5) * share) });
  const marks = [0.9, 2, 5, 12, 25].map((times) => measure(scoreTold(drill, spends(times * allowed)), 'torch-parts').mark);
  expect(marks[0]).toBe(100);
  expect(marks.at(-1)).toBe(0);
  for (let i = 1; i < marks.length; i++) expect(marks[i]).toBeLessThan(marks[i - 1]);
  const [evidence] = measure(scoreTold(drill, spends(3 * allowed)), 'torch-parts').evidence;
  expect(evidence).toMatchObject({ fault: 'torch-parts.worn', unit: 'share', value: expect.closeTo(3 * allowed, 3) });
  expect(evidence.fromTick / 240).toBeCloseTo(5, 0);
});

test('torch parts: many small shots are told as one stretch, and never as nothing', () => {
  const drill = drillWith('torch-parts', {});
  const spent = 3 * drill.tolerances.spentLifeShare;
  // A share of the life at each of twenty starts, 0.4 s apart.
  const shots: Told = { ...good, spentLife: (t) => (spent * Math.min(20, Math.floor(t / 0.4))) / 20 };
  const [evidence, ...more] = measure(scoreTold(drill, shots), 'torch-parts').evidence;
  expect(more).toEqual([]);
  expect(evidence?.value).toBeGreaterThan(0.9 * spent);
});

describe('the rig check', () => {
  const drill = drillWith('rig-check', { rigCheck: 'by-trainee' });

  test('right choices keep all marks, each finding costs and is named', () => {
    const choices = rightChoices(drill);
    expect(measure(scoreTold(drill, { ...good, choices }), 'rig-check')).toMatchObject({ mark: 100, evidence: [] });
    const wet = measure(scoreTold(drill, { ...good, choices: { ...choices, waterTrapDrained: false } }), 'rig-check');
    expect(wet.mark).toBe(40);
    expect(wet.evidence).toMatchObject([{ fault: 'rig-check.wrong', finding: 'trap-not-drained', unit: 'none' }]);
  });

  test('nothing prepared, or no check at all: no marks', () => {
    const nothing = scoreTold(drill, { ...good, choices: neutralChoices(drill) });
    expect(measure(nothing, 'rig-check').mark).toBe(0);
    expect(measure(nothing, 'rig-check').evidence[0].fault).toBe('rig-check.unsafe');
    expect(measure(scoreTold(drill, good), 'rig-check').evidence[0].fault).toBe('rig-check.not-done');
  });

  test('right choices without a cut are worth nothing', () => {
    const idle: Told = { seconds: 5, alongMm: () => -10, arcOn: () => false, choices: rightChoices(drill) };
    expect(scoreTold(drill, idle).score).toBe(0);
  });
});

describe('fault finding', () => {
  const drill = drillWith('fault-finding', { faults: ['wet-gas'] });
  const named: Told = { ...good, isOpen: () => false, diagnosis: { cause: 'wet-gas', remedy: REMEDY_FOR['wet-gas'] } };

  test('cause and remedy: full marks, even for a torch that does not cut', () => {
    expect(scoreTold(drill, named)).toMatchObject({ score: 100, passed: true });
  });

  test.each<[string, number, Partial<Told>]>([
    ['fault-finding.not-named', 0, { diagnosis: null }],
    ['fault-finding.wrong-cause', 0, { diagnosis: { cause: 'low-gas', remedy: REMEDY_FOR['low-gas'] } }],
    ['fault-finding.wrong-remedy', 60, { diagnosis: { cause: 'wet-gas', remedy: 'travel-slower' } }],
    ['fault-finding.not-tried', 0, { arcOn: () => false }],
  ])('%s', (fault, mark, told) => {
    const found = measure(scoreTold(drill, { ...named, ...told }), 'fault-finding');
    expect(found.mark).toBe(mark);
    expect(found.evidence).toMatchObject([{ fault }]);
  });
});

describe('a bevel', () => {
  const drill = drillWith('squareness', { intended: { bevelDeg: 25 } });
  test('is judged about the lean that is intended', () => {
    const square = { ...drill, rubric: { passMark: 60, measures: [{ id: 'squareness' as const, weight: 1 }] } };
    const leaning = (deg: number): number => measure(scoreTold(square, { ...good, workAngleDeg: () => deg }), 'squareness').mark;
    expect([25, 20, 30].map(leaning)).toEqual([100, 100, 100]);
    expect(leaning(0)).toBe(0);
    expect(leaning(12)).toBeLessThan(70);
  });
});

test('a lean that leads the arc out over the far edge is right at the end, and wrong before', () => {
  const pushes = (from: number, to: number): Told => ({
    ...good,
    travelAngleDeg: (t) => (good.alongMm(t) > from && good.alongMm(t) < to ? -18 : 0),
  });
  expect(measure(scoreTold(straight, pushes(LENGTH - 10, LENGTH)), 'squareness').mark).toBe(100);
  expect(measure(scoreTold(straight, pushes(60, 90)), 'squareness').mark).toBeLessThan(90);
});
