import { describe, expect, test } from 'vitest';
import type { HandTick, TileView } from '../../sim-core/index.ts';
import { scriptedRuns } from './scripted-runs.ts';
import { stepThrough } from './step-through.ts';

const runs = scriptedRuns();

describe.each(runs)('$name', (run) => {
  const first = stepThrough(run);

  test('does something', () => {
    expect(first.perSecond).toHaveLength(run.hand.length / 240);
    expect(new Set(first.perSecond).size).toBe(first.perSecond.length);
    expect(first.deliveredJ).toBeGreaterThan(5000);
  });

  test('goes the same way again', () => {
    expect(stepThrough(run)).toEqual(first);
  });

  test('goes the same way while it is looked at', () => {
    const looked = stepThrough(run, (simulation) => {
      if (simulation.tick % 7 === 0) simulation.digest();
      if (simulation.tick % 11 === 0) simulation.save();
      simulation.isOpenAlongAxis(simulation.sample.xMm, simulation.sample.yMm, 5, 5);
      const { tileCells, heatCellsPerTile } = simulation.grid;
      const view: TileView = {
        topDepthMm: new Float32Array(tileCells * tileCells),
        bottomRiseMm: new Float32Array(tileCells * tileCells),
        pieceOf: new Uint8Array(tileCells * tileCells),
        temperatureC: new Float32Array(heatCellsPerTile * heatCellsPerTile),
      };
      if (simulation.tick % 40 === 0) for (const tile of simulation.takeChangedTiles()) simulation.readTile(tile, view);
    });
    expect(looked).toEqual(first);
  });

  test('goes another way when one tick of the hand differs by the least that can be told', () => {
    const at = Math.floor(run.hand.length / 2);
    const changed: HandTick[] = run.hand.map((hand, tick) => (tick === at ? { ...hand, x: hand.x + 1 } : hand));
    const other = stepThrough({ ...run, hand: changed });
    const changedSecond = Math.floor(at / 240);
    expect(other.perSecond.slice(0, changedSecond)).toEqual(first.perSecond.slice(0, changedSecond));
    for (let second = changedSecond; second < first.perSecond.length; second++) {
      expect(other.perSecond[second]).not.toBe(first.perSecond[second]);
    }
  });
});

test('a piece falls where one is cut free', () => {
  const ring = runs.find((run) => run.name.startsWith('ring'));
  expect(ring && stepThrough(ring).fallenPieces).toBe(1);
});

test('runs differ from each other', () => {
  expect(new Set(runs.map((run) => stepThrough(run).final)).size).toBe(runs.length);
});
