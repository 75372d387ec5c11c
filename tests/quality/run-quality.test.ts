// Quality of whole runs on shipped drills: faces stay measurable when the drop has fallen, and a hand's fault shows in the figure
// that belongs to it (common practice, no source).
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import {
  type Drill,
  type FaultHandId,
  faultHand,
  type KerfQuality,
  kerfQuality,
  metalOf,
  parseDrill,
  pathGeometry,
  referenceHand,
  runHand,
  type Simulation,
  windowOfDrill,
} from '../../sim-core/index.ts';

function drillOf(id: string): Drill {
  const read = parseDrill(readFileSync(join(import.meta.dirname, '..', '..', 'scenarios', `${id}.json`), 'utf8'));
  if (!read.ok) throw new Error(`The drill ${id} cannot be read.`);
  return read.value;
}

function qualityOf(drill: Drill, fault: FaultHandId | null): KerfQuality & { simulation: Simulation } {
  const window = windowOfDrill(drill);
  const script = fault === null ? referenceHand(drill, window) : faultHand(fault, drill, window).script;
  const { simulation, samples } = runHand(drill, script, 11);
  const { material, thicknessMm } = drill.plate;
  const quality = kerfQuality(metalOf(simulation), pathGeometry(drill.path), samples, { material, thicknessMm });
  return { ...quality, simulation };
}

test('the faces of a drop that has fallen are read as if it lay where it was cut', () => {
  const drill = drillOf('keel-saddle-curve-6');
  const { perMm, summary, simulation } = qualityOf(drill, null);
  const [drop] = simulation.fallen;
  expect(simulation.fallen).toHaveLength(1);
  if (!drop) return;
  expect(simulation.goneAt(drop.centreXMm, drop.centreYMm, 3)).toBe(1);
  expect(simulation.cutAt(drop.centreXMm, drop.centreYMm, 3)).toBe(0);
  expect(simulation.cutAt(-5, -5, 3)).toBe(1);
  expect(perMm.every((place) => place.state === 'cut')).toBe(true);
  const middle = perMm.slice(5, -5);
  expect(middle.every((place) => place.uLeftMm !== null && place.uRightMm !== null && place.topWidthMm !== null)).toBe(true);
  expect(summary.uRange).toBeLessThanOrEqual(3);
  expect(summary.rz5Range).toBeLessThanOrEqual(3);
});

test('a hand that is too fast leaves uncut metal and a longer drag; one that leans, faces that are out of square', () => {
  const drill = drillOf('hanger-tab-straight-6');
  const good = qualityOf(drill, null).summary;
  expect(good.uncutMm).toBe(0);
  const fast = qualityOf(drill, 'too-fast').summary;
  expect(fast.dragMm).toBeGreaterThan((good.dragMm as number) * 1.3);
  expect(fast.uncutMm + fast.worst.drossMm).toBeGreaterThan(good.uncutMm + good.worst.drossMm);
  const leaning = qualityOf(drill, 'leaning').summary;
  expect(leaning.uMm).toBeGreaterThan((good.uMm as number) * 2);
});
