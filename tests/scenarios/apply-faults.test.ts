// What an injected fault does to the rig, and that it lies on top of whatever the trainee chose.
import { describe, expect, test } from 'vitest';
import {
  applyFaults,
  fitFor,
  NOZZLES,
  neutralChoices,
  REMEDY_FOR,
  REMEDY_IDS,
  RIG_FAULT_IDS,
  rightAnswers,
  rightChoices,
  SPENT,
  setupFromDrill,
  TORCH_BAR,
  torchBar,
} from '../../sim-core/index.ts';
import { shippedDrill } from './drill-files.ts';

const good = fitFor('cut', 45);
const drill = shippedDrill('hanger-tab-straight-6');

test('no fault changes nothing, and the rig that goes in is never changed', () => {
  const before = structuredClone(good);
  expect(applyFaults(good, [])).toEqual(good);
  for (const fault of RIG_FAULT_IDS) expect(applyFaults(good, [fault])).not.toEqual(good);
  expect(good).toEqual(before);
});

describe('each fault', () => {
  test('low gas: too little at the torch, whatever the hose; a regulator that is lower still stays so', () => {
    for (const hoseM of [8, 30]) expect(torchBar(applyFaults({ ...good, hoseM }, ['low-gas']))).toBeLessThan(TORCH_BAR.low);
    expect(applyFaults({ ...good, supplyBar: 1 }, ['low-gas']).supplyBar).toBe(1);
  });

  test('damaged hose: the regulator reads right and the torch gets too little', () => {
    const faulty = applyFaults(good, ['damaged-hose']);
    expect(faulty.supplyBar).toBe(good.supplyBar);
    expect(torchBar(faulty)).toBeLessThan(TORCH_BAR.low);
  });

  test('worn electrode: near the end of its life, never better than it was', () => {
    const { electrodePitMm } = applyFaults(good, ['worn-electrode']).wear;
    expect(electrodePitMm / SPENT.electrodePitMm).toBeGreaterThan(0.8);
    const worse = { ...good, wear: { ...good.wear, electrodePitMm: 2 } };
    expect(applyFaults(worse, ['worn-electrode']).wear.electrodePitMm).toBe(2);
  });

  test('wrong part: a nozzle that is not for this current', () => {
    for (const [mode, currentA] of [
      ['cut', 45],
      ['cut', 60],
      ['cut', 100],
      ['gouge', 60],
      ['mark', 12],
    ] as const) {
      const { nozzle } = applyFaults(fitFor(mode, currentA), ['wrong-part']);
      const { lowA, highA } = NOZZLES[nozzle];
      const forGouging = nozzle === 'gouging';
      expect(currentA < lowA || currentA > highA || forGouging !== (mode === 'gouge'), `${mode} ${currentA} A`).toBe(true);
    }
  });

  test('poor clamp, wrong mode, wet gas', () => {
    expect(applyFaults(good, ['poor-clamp']).clamp).toEqual({ ...good.clamp, surface: 'rust' });
    expect(applyFaults({ ...good, clamp: null }, ['poor-clamp']).clamp).toBeNull();
    expect(applyFaults(good, ['wet-gas']).gas).toBe('wet');
    for (const mode of ['cut', 'gaps', 'gouge', 'mark'] as const) {
      expect(applyFaults(fitFor(mode, 20), ['wrong-mode']).mode).not.toBe(mode);
    }
  });

  test('has one remedy of its own, and there are remedies that cure none', () => {
    const cures = RIG_FAULT_IDS.map((fault) => REMEDY_FOR[fault]);
    expect(new Set(cures).size).toBe(RIG_FAULT_IDS.length);
    expect(REMEDY_IDS.length).toBeGreaterThan(cures.length);
  });
});

describe('a drill with choices and a fault', () => {
  test('stands as chosen, and the fault lies on top', () => {
    const faulty = { ...drill, faults: ['wet-gas' as const] };
    const choices = { ...rightChoices(faulty), currentA: 40, nozzle: 'middle' as const };
    const setup = setupFromDrill(faulty, 1, choices);
    expect(setup).toMatchObject({ currentA: 40, fit: { nozzle: 'middle', gas: 'wet', mode: 'cut' } });
    expect(rightAnswers(faulty).diagnosis).toEqual({ cause: 'wet-gas', remedy: 'drain-water' });
    expect(rightAnswers(drill).diagnosis).toBeNull();
  });

  test('nothing prepared is nothing fitted: no parts, no gas, no clamp', () => {
    const setup = setupFromDrill(drill, 1, neutralChoices(drill));
    expect(setup.fit).toMatchObject({ stack: [], supplyBar: 0, clamp: null, gas: 'wet' });
  });

  test('a dial does not turn past its end, and marking has its own', () => {
    expect(setupFromDrill(drill, 1, { ...rightChoices(drill), currentA: 150 }).currentA).toBe(60);
    expect(setupFromDrill(drill, 1, { ...rightChoices(drill), mode: 'mark' }).currentA).toBe(20);
  });

  test('paint that was stripped is gone, rust is not paint', () => {
    const on = (surface: 'paint' | 'rust', coatingRemoved: boolean) =>
      setupFromDrill({ ...drill, plate: { ...drill.plate, surface } }, 1, { ...rightChoices(drill), coatingRemoved }).surface;
    expect(on('paint', true)).toBe('bare');
    expect(on('paint', false)).toBe('paint');
    expect(on('rust', true)).toBe('rust');
  });
});
