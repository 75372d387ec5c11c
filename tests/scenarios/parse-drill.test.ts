// Broken, newer, hostile drill files: one answer each, with the place. Has caught: `__proto__` let through by the schema library.
import { expect, test } from 'vitest';
import { DRILL_TEXT_LIMIT, parseDrill } from '../../sim-core/index.ts';
import { drillJson, drillText } from './drill-files.ts';

const GOOD = 'hanger-tab-straight-6';

/** The one or the first problem of a text that must be refused. */
function refusal(text: string): { path: string; sentence: string } {
  const result = parseDrill(text);
  if (result.ok) throw new Error('was not refused');
  for (const { sentence } of result.problems) expect(sentence).toMatch(/^[A-Z"].*\.$/s);
  return result.problems[0];
}

/** A good drill with one place set to something else. */
function spoilt(place: string, value: unknown): string {
  const file = drillJson(GOOD);
  const keys = place.split('.');
  let at: Record<string, unknown> = file;
  for (const key of keys.slice(0, -1)) at = at[key] as Record<string, unknown>;
  const last = keys.at(-1) as string;
  if (value === undefined) delete at[last];
  else at[last] = value;
  return JSON.stringify(file);
}

test('a good drill is read whole', () => {
  const result = parseDrill(drillText(`${GOOD}.json`));
  expect(result).toMatchObject({ ok: true, migratedFrom: null, value: { id: GOOD, plate: { thicknessMm: 6 }, attempts: null } });
});

test('a byte order mark before it does no harm', () => {
  expect(parseDrill(`\uFEFF${drillText(`${GOOD}.json`)}`).ok).toBe(true);
});

test.each([
  ['', 'line 1, column 1'],
  ['{', 'line 1, column 2'],
  ['{\n  "format": "kerfhand-drill",\n  "formatVersion": 1,\n}', 'line 4, column 1'],
  ['{\n  "format": \'kerfhand-drill\'\n}', 'line 2, column 13'],
  ['{"a": 01}', 'line 1, column 8'],
  ['{"a": "x\ny"}', 'line 1, column 9'],
  ['{"a": 1} trailing', 'line 1, column 10'],
  ['{"a": 1, "a": 2}', 'line 1, column 10'],
  ['{"a": 1e999}', 'line 1, column 7'],
])('syntax error in %j is told with line and column', (text, place) => {
  expect(refusal(text).path).toBe(place);
});

test('a newer version is refused with both versions in the message', () => {
  const { path, sentence } = refusal(spoilt('formatVersion', 7));
  expect(path).toBe('$.formatVersion');
  expect(sentence).toMatch(/\b7\b.*\b2\b/);
});

test('the version is looked at before anything else: a newer file may have any shape', () => {
  expect(refusal(JSON.stringify({ format: 'kerfhand-drill', formatVersion: 3, whatever: [] })).path).toBe('$.formatVersion');
});

test.each([
  ['format', 'kerfhand-run', '$.format'],
  ['format', undefined, '$.format'],
  ['formatVersion', '1', '$.formatVersion'],
  ['formatVersion', -1, '$.formatVersion'],
  ['id', 'Hanger Tab', '$.id'],
  ['id', '../../etc', '$.id'],
  ['title', '   ', '$.title'],
  ['title', undefined, '$.title'],
  ['technique', 'rolling-pierce', '$.technique'],
  ['plate.material', 'unobtainium', '$.plate.material'],
  ['plate.thicknessMm', 0, '$.plate.thicknessMm'],
  ['plate.thicknessMm', 1e9, '$.plate.thicknessMm'],
  ['plate.lengthMm', 1e6, '$.plate.lengthMm'],
  ['plate.supports.0.xMm', null, '$.plate.supports[0].xMm'],
  ['rig.class', '45', '$.rig.class'],
  ['rig.currentA', '45', '$.rig.currentA'],
  ['rig.knob', 1, '$.rig.knob'],
  ['path.segments', [], '$.path.segments'],
  ['path.segments.0.kind', 'spline', '$.path.segments[0].kind'],
  ['path.segments.0', { kind: 'arc', centre: { xMm: 0, yMm: 0 }, sweepDeg: 0 }, '$.path.segments[0].sweepDeg'],
  ['attempts', 0, '$.attempts'],
  ['attempts', 1.5, '$.attempts'],
  ['tolerances.sparkAngleDeg', { low: 30, high: 15 }, '$.tolerances.sparkAngleDeg'],
  ['rubric.measures.1.id', 'severance', '$.rubric.measures'],
  ['rubric.measures.0.weight', -1, '$.rubric.measures[0].weight'],
  ['card.cautions', [], '$.card.cautions'],
])('%s = %j is told at %s', (place, value, path) => {
  expect(refusal(spoilt(place, value)).path).toBe(path);
});

test('every problem is told, not only the first', () => {
  const file = { ...drillJson(GOOD), title: '', technique: 'x', attempts: -3 };
  const result = parseDrill(JSON.stringify(file));
  expect(result.ok ? [] : result.problems.map(({ path }) => path)).toEqual(['$.title', '$.technique', '$.attempts']);
});

test.each(['__proto__', 'constructor', 'prototype'])('the key %s is refused wherever it stands', (key) => {
  const hostile = `{"format":"kerfhand-drill","formatVersion":1,"plate":{"${key}":{"polluted":true}}}`;
  expect(refusal(hostile).sentence).toContain(key);
  const escaped = `{"format":"kerfhand-drill","formatVersion":1,"\\u005f\\u005fproto\\u005f\\u005f":{"polluted":true}}`;
  expect(refusal(escaped).sentence).toContain('__proto__');
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
});

test('a huge file is refused by its size, a deep one by its depth', () => {
  expect(refusal(' '.repeat(DRILL_TEXT_LIMIT + 1)).sentence).toContain(String(DRILL_TEXT_LIMIT));
  expect(refusal('['.repeat(100_000)).sentence).toMatch(/nested/);
});
