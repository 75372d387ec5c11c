// Old files kept as they were written, one per version; each named step is exercised by one of them.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { DRILL_MIGRATIONS } from '../../sim-core/drill/migrations.ts';
import { checkFeasibility, DRILL_FORMAT_VERSION, type Drill, fitFor, parseDrill, setupFromDrill } from '../../sim-core/index.ts';

const OLD_FILES = path.join(import.meta.dirname, 'old-files');
const version1 = readFileSync(path.join(OLD_FILES, 'drill-version-1.json'), 'utf8');
const version0 = readFileSync(path.join(OLD_FILES, 'drill-version-0.json'), 'utf8');

test('there is one named step from every version to the next', () => {
  expect(DRILL_MIGRATIONS.map(({ from }) => from)).toEqual(Array.from({ length: DRILL_FORMAT_VERSION }, (_, version) => version));
  expect(new Set(DRILL_MIGRATIONS.map(({ name }) => name)).size).toBe(DRILL_MIGRATIONS.length);
});

test('draft-polyline-to-segments: version 0 becomes a drill that can be cut', () => {
  const result = parseDrill(version0);
  expect(result).toMatchObject({ ok: true, migratedFrom: 0 });
  if (!result.ok) return;
  const drill = result.value;
  expect(drill.formatVersion).toBe(DRILL_FORMAT_VERSION);
  expect(drill.rig).toMatchObject({ class: '60', currentA: 45 });
  expect(drill.path).toEqual({
    start: { xMm: 0, yMm: 50 },
    segments: [
      { kind: 'line', to: { xMm: 80, yMm: 50 } },
      { kind: 'line', to: { xMm: 150, yMm: 50 } },
    ],
  });
  expect(drill.rubric).toEqual({
    passMark: 70,
    measures: [
      { id: 'severance', weight: 3 },
      { id: 'travel-speed', weight: 2 },
      { id: 'line-following', weight: 1 },
    ],
  });
  const window = { windowLowMmPerS: 10, windowHighMmPerS: 20, losingSpeedMmPerS: 21, edgeDwellS: 0.2 };
  expect(checkFeasibility(drill, { window })).toEqual([]);
});

test('rig-fitted-out: version 1 becomes the same drill on a rig that is as it should be', () => {
  const result = parseDrill(version1);
  expect(result).toMatchObject({ ok: true, migratedFrom: 1 });
  if (!result.ok) return;
  const drill = result.value;
  const old = JSON.parse(version1) as Drill;
  expect(drill).toMatchObject({ ...old, formatVersion: DRILL_FORMAT_VERSION, guide: { kind: 'freehand' } });
  expect(drill).toMatchObject({
    plate: { surface: 'bare', airGap: null, openings: null },
    rig: { mode: 'cut', nozzle: 'small', shield: 'contact', hoseM: 8 },
    rigCheck: 'done',
    faults: [],
    leadInMm: 0,
    intended: { bevelDeg: 0, travelAngleDeg: null, speedMmPerS: null, grooveDepthMm: null, grooveWidthMm: null, passes: 1 },
    tolerances: { sizeMm: 0.8, evenness: 0.8, spentLifeShare: 0.02, gapDelayS: 0.5 },
  });
  const { fit, ...setup } = setupFromDrill(drill, 1);
  expect(fit, 'the rig of version 1 was as it should be').toEqual(fitFor('cut', 45));
  expect(setup).toEqual({
    material: 'mild-steel',
    thicknessMm: 6,
    lengthMm: 160,
    widthMm: 90,
    cutouts: [],
    supports: old.plate.supports,
    surface: 'bare',
    rig: '60',
    currentA: 45,
    seed: 1,
  });
});

test.each([
  [46, 'middle'],
  [70, 'middle'],
  [71, 'large'],
])('rig-fitted-out: at %i A the nozzle was the %s one', (currentA, nozzle) => {
  const result = parseDrill(JSON.stringify({ ...JSON.parse(version1), rig: { class: '100', currentA } }));
  expect(result).toMatchObject({ ok: true, value: { rig: { nozzle } } });
});

test.each([
  ['guide', { kind: 'freehand' }, '$.guide'],
  ['rig', 60, '$.rig'],
  ['rig', { class: '60' }, '$.rig.currentA'],
  ['plate', null, '$.plate'],
  ['tolerances', [], '$.tolerances'],
])('a version 1 whose %s is %j was never good: it is told at %s, with the step', (field, value, place) => {
  const result = parseDrill(JSON.stringify({ ...(JSON.parse(version1) as object), [field]: value }));
  expect(result).toMatchObject({ ok: false, problems: [{ path: place, sentence: expect.stringContaining('rig-fitted-out') }] });
});

test.each([
  ['line', [[0, 50]], '$.line'],
  ['line', [[0, 50], 'x'], '$.line[1]'],
  ['rig', 60, '$.rig'],
  ['weights', [1], '$.weights'],
])('a version 0 whose %s is %j was never good: it is told at %s, with the step', (field, value, place) => {
  const result = parseDrill(JSON.stringify({ ...(JSON.parse(version0) as object), [field]: value }));
  expect(result).toMatchObject({
    ok: false,
    problems: [{ path: place, sentence: expect.stringContaining('draft-polyline-to-segments') }],
  });
});
