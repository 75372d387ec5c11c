// Every shipped drill: read, published schema, cut to the end by the reference hand, nothing non-finite.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { publishedSchemas } from '../../sim-core/drill/published-schemas.ts';
import {
  checkFeasibility,
  type Drill,
  MATERIAL_IDS,
  MEASURE_IDS,
  parseDrill,
  RIG_MODES,
  type RigFaultId,
  referenceHand,
  runHand,
  SAMPLE_FIELDS,
  TECHNIQUES,
  windowOfDrill,
} from '../../sim-core/index.ts';
import { DRILL_FILES, drillText, SCENARIOS, shippedDrill } from './drill-files.ts';

/** Figures that are NaN where there is none, by the contract of the samples. */
const MAY_BE_NAN = new Set(['arcVoltageV', 'sparkAngleDeg']);

const ALL = DRILL_FILES.map((name) => shippedDrill(name.replace('.json', '')));

test('at least twenty drills cover every technique, 1.5 to 20 mm, the three metals, the three rigs and every way to start, end and guide', () => {
  expect(ALL.length).toBeGreaterThanOrEqual(20);
  const all = <T>(of: (drill: Drill) => T): Set<T> => new Set(ALL.map(of));
  expect(all(({ technique }) => technique)).toEqual(new Set(TECHNIQUES));
  expect(all(({ plate }) => plate.material)).toEqual(new Set(MATERIAL_IDS));
  expect(all(({ rig }) => rig.class)).toEqual(new Set(['40', '60', '100']));
  expect(all(({ rig }) => rig.mode)).toEqual(new Set(RIG_MODES));
  expect(all(({ start }) => start)).toEqual(new Set(['edge', 'contact-pierce', 'rolling-pierce', 'stand-off-pierce']));
  expect(all(({ finish }) => finish)).toEqual(new Set(['run-off', 'stop', 'close']));
  expect(all(({ guide }) => guide.kind)).toEqual(new Set(['freehand', 'straight-edge', 'template', 'circle']));
  expect(all(({ cueLevel }) => cueLevel)).toEqual(new Set(['full', 'alternate', 'none']));
  const thickness = ALL.map(({ plate }) => plate.thicknessMm);
  expect(Math.min(...thickness)).toBe(1.5);
  expect(Math.max(...thickness)).toBe(20);
});

test('every measure is asked for by some drill', () => {
  const asked = new Set(ALL.flatMap(({ rubric }) => rubric.measures.map(({ id }) => id)));
  expect(asked).toEqual(new Set(MEASURE_IDS));
});

test('a drill that judges how a line is cut judges how it ends, and lets no end pass that is far off', () => {
  for (const { id, rubric } of ALL) {
    if (!rubric.measures.some((measure) => measure.id === 'travel-speed')) continue;
    const end = rubric.measures.find((measure) => measure.id === 'end-of-cut');
    expect(end?.mustReach, id).toBeGreaterThan(0);
  }
});

test('the mixed assessment asks for rig check, pierce and cut-out, without cues and not for ever', () => {
  const [drill, ...more] = ALL.filter(({ technique }) => technique === 'assessment');
  expect(more).toEqual([]);
  expect(drill).toMatchObject({ rigCheck: 'by-trainee', finish: 'close', cueLevel: 'none', start: 'rolling-pierce' });
  expect(drill.attempts).not.toBeNull();
  expect(drill.rubric.measures.map(({ id }) => id)).toEqual(expect.arrayContaining(['rig-check', 'pierce', 'part-size']));
});

/** What would give a fault away. */
const TELLING: Record<RigFaultId, RegExp> = {
  'low-gas': /\b(gas|pressure|regulator|bar)\b/,
  'wet-gas': /\b(wet|water|moist\w*|trap)\b/,
  'worn-electrode': /\b(electrode|worn)\b/,
  'wrong-part': /\b(nozzle|part|parts)\b/,
  'poor-clamp': /\b(clamp|return)\b/,
  'wrong-mode': /\bmode\b/,
  'damaged-hose': /\b(hose|leak\w*)\b/,
};

test('drills with a fault are several, each another, and none says it in what the trainee reads', () => {
  const faulty = ALL.filter(({ faults }) => faults.length > 0);
  expect(new Set(faulty.flatMap(({ faults }) => faults)).size).toBe(faulty.length);
  expect(faulty.length).toBeGreaterThanOrEqual(3);
  for (const { id, title, card, faults } of faulty) {
    const words = `${id} ${title} ${card.purpose} ${card.task} ${card.hints.join(' ')}`.toLowerCase();
    expect(words, id).not.toMatch(TELLING[faults[0]]);
  }
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
  });
});
