import { expect, test } from 'vitest';
import type { DrillSummary } from '../../electron/contract.ts';
import { type DrillFilter, drillShelf, NO_FILTER, techniquesOf } from '../../renderer/drills/drill-shelf.ts';

const drill = (id: string, technique: string, thicknessMm: number, material: DrillSummary['material'] = 'mild-steel') =>
  ({ id, hash: id, source: 'shipped', draft: false, title: id, technique, material, thicknessMm }) satisfies DrillSummary;

const drills = [
  drill('own', 'weaving', 6),
  drill('pierce-12', 'pierce', 12),
  drill('edge-10', 'edge-start', 10),
  drill('edge-3', 'edge-start', 3),
  drill('galley', 'edge-start', 3, 'stainless-steel'),
  drill('groove', 'gouge', 12),
];
const ids = (filter: Partial<DrillFilter> = {}) =>
  drillShelf(drills, { ...NO_FILTER, ...filter }).map((group) => [group.technique, group.drills.map((one) => one.id)]);

test('groups stand in learning order, thin metal first; a technique that the core does not know comes last', () => {
  expect(ids()).toEqual([
    ['edge-start', ['edge-3', 'galley', 'edge-10']],
    ['pierce', ['pierce-12']],
    ['gouge', ['groove']],
    ['weaving', ['own']],
  ]);
  expect(techniquesOf(drills)).toEqual(['edge-start', 'pierce', 'gouge', 'weaving']);
});

test('technique, metal and thickness narrow it together; a band ends with its upper thickness', () => {
  expect(ids({ technique: 'edge-start', material: 'mild-steel' })).toEqual([['edge-start', ['edge-3', 'edge-10']]]);
  expect(ids({ thickness: 'thin' })).toEqual([['edge-start', ['edge-3', 'galley']]]);
  expect(ids({ thickness: 'middle' })).toEqual([['edge-start', ['edge-10']]]);
  expect(ids({ thickness: 'heavy' })).toEqual([
    ['pierce', ['pierce-12']],
    ['gouge', ['groove']],
  ]);
  expect(ids({ technique: 'gouge', thickness: 'thin' })).toEqual([]);
});
