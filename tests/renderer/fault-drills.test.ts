import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ARC_SIGNS, type ArcSign, createArcSigns } from '../../renderer/fault-finding/arc-signs.ts';
import {
  type Drill,
  parseDrill,
  readHandTick,
  referenceHand,
  runHand,
  SAMPLE_FIELDS,
  type Sample,
  setupFromDrill,
  windowOfDrill,
} from '../../sim-core/index.ts';

const folder = join(import.meta.dirname, '..', '..', 'scenarios');
const faulty: Drill[] = readdirSync(folder)
  .filter((name) => name.endsWith('.json') && !name.endsWith('.schema.json'))
  .map((name) => {
    const read = parseDrill(readFileSync(join(folder, name), 'utf8'));
    if (!read.ok) throw new Error(`${name} cannot be read`);
    return read.value;
  })
  .filter((drill) => drill.faults.length > 0);

/** Signs that the reference hand gets to see, looked for as often as a slow page does. */
function signsOf(drill: Drill): ArcSign[] {
  const run = runHand(drill, referenceHand(drill, windowOfDrill(drill)), 3);
  const signs = createArcSigns(setupFromDrill(drill, 3));
  const tick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 as 0 | 1 };
  for (let n = 0; n < run.samples.length; n += 20) {
    const sample = Object.fromEntries(SAMPLE_FIELDS.map((field) => [field, run.samples.columns[field][n]])) as Sample;
    readHandTick(run.log, n, tick);
    signs.look(sample, tick.trigger === 1, n + 1);
  }
  return ARC_SIGNS.filter((sign) => signs.seen[sign] > 0);
}

test('there are drills with a fault', () => expect(faulty.length).toBeGreaterThanOrEqual(3));

// The mesh drill is left out: there an arc that drops out at every opening is what its fault and its metal have in common.
test.each(faulty.filter((drill) => drill.plate.openings === null).map((drill) => [drill.id, drill] as const))(
  '%s shows its fault in words, and nothing once the fault is mended',
  (_, drill) => {
    expect(signsOf(drill).length).toBeGreaterThan(0);
    expect(signsOf({ ...drill, faults: [] })).toEqual([]);
  },
);
