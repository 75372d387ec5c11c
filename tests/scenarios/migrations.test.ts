// Old files kept as they were written, one per version; each named step is exercised by one of them.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { DRILL_MIGRATIONS } from '../../sim-core/drill/migrations.ts';
import { checkFeasibility, DRILL_FORMAT_VERSION, parseDrill } from '../../sim-core/index.ts';

const OLD_FILES = path.join(import.meta.dirname, 'old-files');
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
  expect(drill.rig).toEqual({ class: '60', currentA: 45 });
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
