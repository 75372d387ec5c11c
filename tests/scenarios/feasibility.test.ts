// Drills that read well and cannot be cut: each refused at its place, with the reason.
import { describe, expect, test } from 'vitest';
import { checkFeasibility, conditionOfDrill, type Drill, type SpeedWindow, windowOfDrill } from '../../sim-core/index.ts';
import { shippedDrill } from './drill-files.ts';

const good = shippedDrill('hanger-tab-straight-6');
const slot = shippedDrill('drain-slot-stop-6');
const curve = shippedDrill('keel-saddle-curve-6');

/** A window such as a sound metal has; the drawing is what these drills are about. */
const SOUND: SpeedWindow = { windowLowMmPerS: 10, windowHighMmPerS: 20, losingSpeedMmPerS: 21, edgeDwellS: 0.2 };

function problems(drill: Drill) {
  return checkFeasibility(drill, { window: SOUND, skipPierce: true });
}

describe('the drawing', () => {
  test.each([good, slot, curve])('of $id is sound', (drill) => {
    expect(problems(drill)).toEqual([]);
  });

  test.each([
    ['current off the dial', { ...good, rig: { ...good.rig, currentA: 61 } }, '$.rig.currentA', /60 A/],
    ['start inside the plate', { ...good, path: { ...good.path, start: { xMm: 20, yMm: 60 } } }, '$.path.start', /edge/],
    ['start beside the plate', { ...good, path: { ...good.path, start: { xMm: -20, yMm: 60 } } }, '$.path.start', /edge/],
    [
      'line that leads away',
      { ...good, path: { ...good.path, segments: [{ kind: 'line', to: { xMm: -40, yMm: 60 } }] } },
      '$.path.segments[0]',
      /away/,
    ],
    [
      'end inside the plate',
      { ...good, path: { ...good.path, segments: [{ kind: 'line', to: { xMm: 100, yMm: 60 } }] } },
      '$.path.segments[0]',
      /edge/,
    ],
    [
      'stop at an edge',
      { ...slot, path: { ...slot.path, segments: [{ kind: 'line', to: { xMm: 138, yMm: 40 } }] } },
      '$.path.segments[0]',
      /edge/,
    ],
    [
      'line shorter than can be marked',
      { ...slot, path: { ...slot.path, segments: [{ kind: 'line', to: { xMm: 15, yMm: 40 } }] } },
      '$.path',
      /15 mm/,
    ],
    [
      'support outside the plate',
      { ...good, plate: { ...good.plate, supports: [{ xMm: 500, yMm: 0 }] } },
      '$.plate.supports[0]',
      /outside/,
    ],
  ] as [string, Drill, string, RegExp][])('%s', (_what, drill, path, sentence) => {
    expect(problems(drill)).toContainEqual({ path, sentence: expect.stringMatching(sentence) });
  });

  test('a line that leaves the plate on its way is told with the place', () => {
    const segments = [
      { kind: 'line' as const, to: { xMm: 80, yMm: 120 } },
      { kind: 'line' as const, to: { xMm: 160, yMm: 60 } },
    ];
    const [problem] = problems({ ...good, path: { ...good.path, segments } });
    expect(problem).toEqual({ path: '$.path', sentence: expect.stringMatching(/leaves the metal .* mm from its start/) });
  });

  test('a cut-out in the way is off the metal, and a start at its edge is a start at an edge', () => {
    const hole = [40, 60].flatMap((x) => [
      { xMm: x, yMm: x === 40 ? 50 : 70 },
      { xMm: x, yMm: x === 40 ? 70 : 50 },
    ]);
    const plate = { ...good.plate, cutouts: [hole] };
    expect(problems({ ...good, plate })[0].path).toBe('$.path');
    expect(problems({ ...good, plate, path: { ...good.path, start: { xMm: 60, yMm: 60 } } })).toEqual([]);
  });
});

const washer = shippedDrill('rudder-washer-hole-12');
const porthole = shippedDrill('porthole-circle-guide-6');
const groove = shippedDrill('hanger-weld-gouge-12');
const marks = shippedDrill('blank-layout-marks-3');
const mesh = shippedDrill('drain-grating-mesh-4');
const edge = shippedDrill('gangway-plate-straight-edge-6');

describe('every technique', () => {
  test.each([washer, porthole, groove, marks, mesh, edge])('$id is sound', (drill) => {
    expect(problems(drill)).toEqual([]);
  });

  test.each([
    [
      'marking current off its dial',
      { ...marks, rig: { ...marks.rig, currentA: 30 } },
      '$.rig.currentA',
      /8 to 20 A for marking/,
    ],
    ['nozzle too small', { ...good, rig: { ...good.rig, nozzle: 'fine' } }, '$.rig.nozzle', /8 to 20 A.*45 A/],
    ['cutting nozzle for a groove', { ...groove, rig: { ...groove.rig, nozzle: 'middle' } }, '$.rig.nozzle', /gouging/],
    ['contact shield for a groove', { ...groove, rig: { ...groove.rig, shield: 'contact' } }, '$.rig.shield', /wide/],
    [
      'no right clamp spot',
      { ...good, rig: { ...good.rig, clampSpots: [{ id: 'drop', xMm: 9, yMm: 9, surface: 'bare', onDrop: true }] } },
      '$.rig.clampSpots',
      /bare/,
    ],
    ['guide at a wrong offset', { ...edge, guide: { ...edge.guide, offsetMm: 9 } }, '$.guide.offsetMm', /8 mm.*9 mm/],
    ['circle guide without its turn', { ...porthole, guide: { kind: 'circle', radiusMm: 25 } }, '$.guide.radiusMm', /25 mm/],
    ['paint that the site denies', { ...good, plate: { ...good.plate, surface: 'paint' } }, '$.site.coating', /paint/],
    ['pierce at the edge', { ...good, start: 'rolling-pierce', rubric: slot.rubric }, '$.path.start', /5 mm/],
    [
      'outline that does not close',
      { ...washer, path: { ...washer.path, segments: [washer.path.segments[0], { ...washer.path.segments[1], sweepDeg: 350 }] } },
      '$.path.segments[1]',
      /closes/,
    ],
    ['lead-in longer than the line', { ...washer, leadInMm: 150 }, '$.leadInMm', /at least 20 mm/],
    [
      'groove without a depth',
      { ...groove, intended: { ...groove.intended, grooveDepthMm: null } },
      '$.intended',
      /grooveDepthMm/,
    ],
    [
      'mark that starts beside the plate',
      { ...marks, path: { ...marks.path, start: { xMm: -5, yMm: 20 } } },
      '$.path.start',
      /beside/,
    ],
    [
      'support under an opening',
      { ...mesh, plate: { ...mesh.plate, supports: [{ xMm: 75, yMm: 38 }] } },
      '$.plate.supports[0]',
      /carries nothing/,
    ],
    [
      'openings that do not fit',
      { ...mesh, plate: { ...mesh.plate, openings: { kind: 'slots', pitchXMm: 200, pitchYMm: 200, strandMm: 2 } } },
      '$.plate.openings',
      /fits/,
    ],
    [
      'no plate below the gap',
      { ...good, plate: { ...good.plate, airGap: { fromMm: 4, toMm: 6 } } },
      '$.plate.airGap.toMm',
      /second plate/,
    ],
    ['edge pause without an edge', { ...washer, rubric: good.rubric }, '$.rubric.measures[6]', /edge/],
    ['pierce without one', { ...good, rubric: washer.rubric }, '$.rubric.measures[1]', /pierce/],
    ['openings where there are none', { ...good, rubric: mesh.rubric }, '$.rubric.measures[1]', /openings/],
    ['rig check by nobody', { ...edge, rigCheck: 'done' }, '$.rubric.measures[2]', /trainee/],
    [
      'fault that is not there',
      { ...good, rubric: { passMark: 60, measures: [{ id: 'fault-finding', weight: 1 }] } },
      '$.rubric.measures[0]',
      /fault/,
    ],
    [
      'groove that is not asked for',
      { ...good, rubric: { passMark: 60, measures: [{ id: 'groove-depth', weight: 1 }] } },
      '$.rubric.measures[0]',
      /grooveDepthMm/,
    ],
  ] as [string, Drill, string, RegExp][])('%s', (_what, drill, path, sentence) => {
    expect(problems(drill)).toContainEqual({ path, sentence: expect.stringMatching(sentence) });
  });

  test('a line may cross the openings of a mesh, not a cut-out', () => {
    const hole = [
      { xMm: 60, yMm: 30 },
      { xMm: 70, yMm: 30 },
      { xMm: 65, yMm: 50 },
    ];
    expect(problems({ ...mesh, plate: { ...mesh.plate, cutouts: [hole] } })).toContainEqual({
      path: '$.path',
      sentence: expect.stringMatching(/leaves the metal/),
    });
  });
});

describe('the metal', () => {
  test('that the rig cannot cut is refused with the core’s reason', () => {
    const window = {
      windowLowMmPerS: null,
      windowHighMmPerS: null,
      losingSpeedMmPerS: null,
      edgeDwellS: null,
      reason: 'Why not.',
    };
    const [problem] = checkFeasibility(good, { window });
    expect(problem).toEqual({ path: '$.plate.thicknessMm', sentence: expect.stringMatching(/6 mm mild steel.*Why not\./) });
  });

  test('that cannot be pierced is refused with the core’s limit, though it can be cut from the edge', () => {
    const thick = { ...washer, plate: { ...washer.plate, thicknessMm: 22 } };
    const [problem, ...more] = checkFeasibility(thick, { window: SOUND });
    expect(more).toEqual([]);
    expect(problem).toEqual({ path: '$.start', sentence: expect.stringMatching(/cannot pierce 22 mm mild steel: its limit is/) });
    const limitMm = Number(/limit is ([\d.]+) mm/.exec(problem.sentence)?.[1]);
    expect(limitMm).toBeGreaterThan(washer.plate.thicknessMm);
    expect(limitMm).toBeLessThan(22);
    expect(checkFeasibility({ ...thick, plate: { ...thick.plate, thicknessMm: limitMm - 0.5 } }, { window: SOUND })).toEqual([]);
  });

  test('of a groove need not be cut through: no window is asked for', () => {
    const nothing = { windowLowMmPerS: null, windowHighMmPerS: null, losingSpeedMmPerS: null, edgeDwellS: null };
    expect(checkFeasibility(groove, { window: nothing })).toEqual([]);
    expect(windowOfDrill(groove)).toMatchObject({ windowLowMmPerS: 10, windowHighMmPerS: 14 });
    expect(conditionOfDrill(groove)).toBeNull();
  });

  test('under a bevel is as thick as the way through it, of two plates the metal of both', () => {
    const bevel = { ...good, intended: { ...good.intended, bevelDeg: 30 } };
    expect(conditionOfDrill(bevel)?.thicknessMm).toBeCloseTo(6 / Math.cos(Math.PI / 6), 9);
    const two = { ...good, plate: { ...good.plate, airGap: { fromMm: 3, toMm: 3.5 } } };
    expect(conditionOfDrill(two)?.thicknessMm).toBe(5.5);
  });

  test('is asked of the core itself: 25 mm at 15 A is too much', () => {
    const drill = {
      ...good,
      plate: { ...good.plate, thicknessMm: 25 },
      rig: { ...good.rig, class: '40' as const, currentA: 15 },
    };
    expect(checkFeasibility(drill)).toEqual([
      { path: '$.plate.thicknessMm', sentence: expect.stringMatching(/15 A cannot cut 25 mm/) },
    ]);
  });
});
