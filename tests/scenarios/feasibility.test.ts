// Drills that read well and cannot be cut: each refused at its place, with the reason.
import { describe, expect, test } from 'vitest';
import { checkFeasibility, type Drill, type SpeedWindow } from '../../sim-core/index.ts';
import { shippedDrill } from './drill-files.ts';

const good = shippedDrill('hanger-tab-straight-6');
const slot = shippedDrill('drain-slot-stop-6');
const curve = shippedDrill('keel-saddle-curve-6');

/** A window such as a sound metal has; the drawing is what these drills are about. */
const SOUND: SpeedWindow = { windowLowMmPerS: 10, windowHighMmPerS: 20, losingSpeedMmPerS: 21, edgeDwellS: 0.2 };

function problems(drill: Drill) {
  return checkFeasibility(drill, { window: SOUND });
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

  test('is asked of the core itself: 25 mm at 15 A is too much', () => {
    const drill = {
      ...good,
      plate: { ...good.plate, thicknessMm: 25 },
      rig: { ...good.rig, class: '40' as const, currentA: 15 },
    };
    expect(checkFeasibility(drill)).toEqual([
      { path: '$.plate.thicknessMm', sentence: expect.stringMatching(/15 A cannot cut 25 mm/) },
    ]);
  }, 60_000);
});
