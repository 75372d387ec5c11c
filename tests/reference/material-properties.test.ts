// S5: material data against the standard's own formulas, written again here. EN 1993-1-2:2005 sec. 3.4.1 (read), EN 1999-1-2
// sec. 3.3.2 (from memory), C. S. Kim, ANL-75-55 (1975) (from memory); CRC Handbook values from memory.
import { expect, test } from 'vitest';
import { enthalpyOfHeating, enthalpyTable, temperatureAt } from '../../sim-core/materials/enthalpy-table.ts';
import { MATERIALS } from '../../sim-core/materials/materials.ts';

test('specific heat of carbon steel: EN 1993-1-2', () => {
  const expected = {
    20: 439.802,
    100: 487.62,
    200: 529.76,
    400: 605.88,
    600: 760.217,
    700: 1008.158,
    735: 5000,
    800: 803.261,
    1200: 650,
  };
  for (const [celsius, value] of Object.entries(expected)) {
    expect(MATERIALS['mild-steel'].specificHeatJPerGK(Number(celsius)) * 1000).toBeCloseTo(value, 2);
  }
});

test('conductivity of carbon steel: EN 1993-1-2', () => {
  const expected = { 20: 53.334, 100: 50.67, 200: 47.34, 400: 40.68, 600: 34.02, 700: 30.69, 800: 27.3, 1200: 27.3 };
  for (const [celsius, value] of Object.entries(expected)) {
    expect(MATERIALS['mild-steel'].conductivityWPerMmK(Number(celsius)) * 1000).toBeCloseTo(value, 2);
  }
});

test('heat to warm carbon steel: integral of the standard, kJ/kg', () => {
  // Integrated in closed form from the standard's polynomials.
  const expected = { 200: 88.191, 600: 335.738, 735: 475.428, 900: 632.064, 1200: 827.064 };
  for (const [celsius, value] of Object.entries(expected)) {
    // The peak at 735 degC is integrated in steps of half a kelvin: 0.5 %.
    expect(Math.abs(enthalpyOfHeating(MATERIALS['mild-steel'], 0, Number(celsius) - 20) - value) / value).toBeLessThan(0.005);
  }
});

test('heat to liquid steel is near 1.28 MJ/kg, of pure iron about 1.30 (JANAF, from memory)', () => {
  const table = enthalpyTable(MATERIALS['mild-steel']);
  expect(table.liquidusJPerMm3 / MATERIALS['mild-steel'].densityGPerMm3).toBeGreaterThan(1260);
  expect(table.liquidusJPerMm3 / MATERIALS['mild-steel'].densityGPerMm3).toBeLessThan(1310);
});

test('stainless steel: Kim 1975', () => {
  const steel = MATERIALS['stainless-steel'];
  for (const kelvin of [400, 800, 1200, 1600]) {
    expect(steel.specificHeatJPerGK(kelvin - 273.15) * 1000).toBeCloseTo(469.4 + 0.1348 * kelvin, 6);
    expect(steel.conductivityWPerMmK(kelvin - 273.15) * 1000).toBeCloseTo(8.116 + 1.618e-2 * kelvin, 6);
  }
  // 849.37 kJ/kg to 1700 K, 1.114 MJ/kg to liquid.
  expect(Math.abs(enthalpyOfHeating(steel, 0, 1407) - 849.37)).toBeLessThan(2);
  const table = enthalpyTable(steel);
  expect(Math.abs(table.liquidusJPerMm3 / steel.densityGPerMm3 - 1114)).toBeLessThan(6);
});

test('aluminium: EN 1999-1-2', () => {
  const metal = MATERIALS.aluminium;
  for (const celsius of [20, 100, 300, 500]) {
    expect(metal.specificHeatJPerGK(celsius) * 1000).toBeCloseTo(0.41 * celsius + 903, 6);
    expect(metal.conductivityWPerMmK(celsius) * 1000).toBeCloseTo(0.07 * celsius + 190, 6);
  }
  expect(Math.abs(enthalpyOfHeating(metal, 0, 480) - 484.61)).toBeLessThan(0.1);
});

test('the table goes both ways: enthalpy to temperature and back', () => {
  for (const material of Object.values(MATERIALS)) {
    const table = enthalpyTable(material);
    for (const rise of [10, 100, 300, 500]) {
      const held = enthalpyOfHeating(material, 0, rise) * material.densityGPerMm3;
      expect(Math.abs(temperatureAt(table, held) - rise)).toBeLessThan(1);
    }
    // Half way through melting it is at the melting point.
    expect(temperatureAt(table, (table.solidusJPerMm3 + table.liquidusJPerMm3) / 2)).toBeCloseTo(table.meltingK, 3);
  }
});
