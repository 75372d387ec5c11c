// S5: material data against the standards' own formulas, worked out in material-checks.ts: each check names its source.
import { expect, test } from 'vitest';
import { enthalpyOfHeating, enthalpyTable, temperatureAt } from '../../sim-core/materials/enthalpy-table.ts';
import { MATERIALS } from '../../sim-core/materials/materials.ts';
import { expectPublished } from './expect-published.ts';
import { MATERIAL_CHECKS } from './material-checks.ts';

test.each(MATERIAL_CHECKS)('$about', expectPublished);

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
