// Every shipped drill: read, published schema, cut to the end by the reference hand, nothing non-finite.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { publishedSchemas } from '../../sim-core/drill/published-schemas.ts';
import { checkFeasibility, parseDrill, referenceHand, runHand, SAMPLE_FIELDS, windowOfDrill } from '../../sim-core/index.ts';
import { DRILL_FILES, drillText, SCENARIOS, shippedDrill } from './drill-files.ts';

/** Figures that are NaN where there is none, by the contract of the samples. */
const MAY_BE_NAN = new Set(['arcVoltageV', 'sparkAngleDeg']);

test('at least four drills are shipped, with straight cuts in 3, 6 and 10 mm mild steel and a curved one', () => {
  expect(DRILL_FILES.length).toBeGreaterThanOrEqual(4);
  const drills = DRILL_FILES.map((name) => shippedDrill(name.replace('.json', '')));
  for (const thicknessMm of [3, 6, 10]) {
    const straight = drills.filter(
      ({ plate, path: line }) =>
        plate.material === 'mild-steel' &&
        plate.thicknessMm === thicknessMm &&
        line.segments.every(({ kind }) => kind === 'line'),
    );
    expect(straight.length, `${thicknessMm} mm`).toBeGreaterThanOrEqual(1);
  }
  expect(drills.some((drill) => drill.path.segments.some(({ kind }) => kind === 'arc'))).toBe(true);
});

test.each(publishedSchemas())('the published $fileName is the schema that the code reads by', ({ fileName, schema }) => {
  const published: unknown = JSON.parse(readFileSync(path.join(SCENARIOS, fileName), 'utf8'));
  expect(published, 'write it anew: node tests/scenarios/write-schemas.ts').toEqual(JSON.parse(JSON.stringify(schema)));
});

describe.each(DRILL_FILES)('%s', (name) => {
  test('is valid by the published schema and by the parser, and is named for its id', () => {
    const validate = new Ajv2020({ strict: false }).compile(publishedSchemas()[0].schema);
    const file: unknown = JSON.parse(drillText(name));
    expect(validate(file), JSON.stringify(validate.errors)).toBe(true);
    const result = parseDrill(drillText(name));
    expect(result).toMatchObject({ ok: true, migratedFrom: null });
    expect(result.ok && `${result.value.id}.json`).toBe(name);
  });

  test('defers to the machine, the employer, the codes and licensed practice', () => {
    const { onRealPlate, cautions } = shippedDrill(name.replace('.json', '')).card;
    for (const word of [/manual/, /employer/, /local codes/, /licensed/]) expect(onRealPlate).toMatch(word);
    expect(cautions).toEqual(expect.arrayContaining(['electric-shock', 'eyes', 'fume', 'fire']));
  });

  test('can be cut, and the reference hand passes it with 90 or more', () => {
    const drill = shippedDrill(name.replace('.json', ''));
    const window = windowOfDrill(drill);
    expect(checkFeasibility(drill)).toEqual([]);
    for (const seed of [1, 4294967295]) {
      const run = runHand(drill, referenceHand(drill, window), seed);
      expect(run.score.reasons).toEqual([]);
      expect(run.score.score).toBeGreaterThanOrEqual(90);
      expect(run.score.passed).toBe(true);
      for (const field of SAMPLE_FIELDS) {
        const column = run.samples.columns[field].subarray(0, run.samples.length);
        const bad = column.findIndex((value) => !Number.isFinite(value) && !(MAY_BE_NAN.has(field) && Number.isNaN(value)));
        expect(bad, `${field} at tick ${bad + 1} is ${column[bad]}`).toBe(-1);
      }
      expect(JSON.parse(JSON.stringify(run.score)), 'a figure of the score is not finite').toEqual(run.score);
    }
  }, 120_000);
});
