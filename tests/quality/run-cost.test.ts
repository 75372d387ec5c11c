// The bill of a run: every line is an amount times a price, and the total their sum. Catches litres billed as cubic metres, minutes
// as hours, wear that was there before the run billed again, and a plate that is charged for its holes.
import { expect, test } from 'vitest';
import { freshWear, SPENT } from '../../sim-core/physics/wear.ts';
import { type Prices, plateMassKg, runCost } from '../../sim-core/quality/run-cost.ts';

const PRICES: Prices = {
  electrode: 10,
  nozzle: 8,
  shield: 20,
  gasPerM3: 2,
  platePerKg: { 'mild-steel': 3, 'stainless-steel': 9, aluminium: 12 },
  stationPerHour: 60,
};

test('amounts, costs and total', () => {
  const worn = { ...freshWear(), electrodePitMm: SPENT.electrodePitMm / 4 };
  const wearAfter = {
    electrodePitMm: SPENT.electrodePitMm / 2,
    boreGrowthMm: SPENT.boreGrowthMm / 8,
    shieldDamage: 0.1,
    spatterLoad: 0.3,
  };
  const { lines, total } = runCost(
    { wearBefore: worn, wearAfter, usage: { gasL: 500 }, plateKg: 2, material: 'aluminium', minutes: 3 },
    PRICES,
  );
  const of = Object.fromEntries(lines.map((line) => [line.id, line]));
  expect(of.electrode).toMatchObject({ unit: 'share' });
  expect(of.electrode?.amount).toBeCloseTo(0.25, 12);
  expect(of.electrode?.cost).toBeCloseTo(2.5, 12);
  expect(of.nozzle?.cost).toBeCloseTo(1, 12);
  expect(of.shield?.cost).toBeCloseTo(6, 12);
  expect(of.plate).toEqual({ id: 'plate', amount: 2, unit: 'kg', cost: 24 });
  expect(of.gas).toEqual({ id: 'gas', amount: 0.5, unit: 'm3', cost: 1 });
  expect(of.time).toEqual({ id: 'time', amount: 3, unit: 'min', cost: 3 });
  expect(total).toBeCloseTo(2.5 + 1 + 6 + 24 + 1 + 3, 12);
});

test('the mass of a plate: density times what is there', () => {
  const plate = {
    material: 'mild-steel',
    thicknessMm: 10,
    lengthMm: 200,
    widthMm: 100,
    rig: '60',
    currentA: 45,
    seed: 0,
  } as const;
  expect(plateMassKg(plate)).toBeCloseTo(1.57, 6);
  const hole = [
    { xMm: 10, yMm: 10 },
    { xMm: 10, yMm: 60 },
    { xMm: 110, yMm: 60 },
    { xMm: 110, yMm: 10 },
  ];
  expect(plateMassKg({ ...plate, cutouts: [hole] })).toBeCloseTo(1.57 * 0.75, 6);
  expect(plateMassKg({ ...plate, airGap: { fromMm: 4, toMm: 6 } })).toBeCloseTo(1.57 * 0.8, 6);
});
