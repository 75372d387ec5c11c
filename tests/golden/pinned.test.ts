// Pinned figures of this core version: a table of coupons, pierces and grooves, and one scripted run with its digests and the tick at which the arc
// came through. What may change them: a change of physics that raises CORE_VERSION (run with KERFHAND_PIN=1 to write them
// anew, and give the reason in the commit message). Nothing else: not an engine, a machine, an optimisation or a refactoring.
import { readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import {
  CORE_VERSION,
  type CouponOptions,
  createSimulation,
  gougeCoupon,
  PIERCE_METHODS,
  pierceCoupon,
  quantiseHand,
  runCoupon,
} from '../../sim-core/index.ts';

const FILE = new URL('./pinned.json', import.meta.url);

interface Pinned {
  coreVersion: string;
  coupons: Record<string, Record<string, number | string | null>>;
  pierces: Record<string, Record<string, number | boolean | null>>;
  grooves: Record<string, Record<string, number | null>>;
  run: { throughTick: number; digests: string[]; blowbackMj: number; severedMm: number };
}

const coupons: CouponOptions[] = [
  { material: 'mild-steel', thicknessMm: 3, currentA: 40, rig: '40', speedMmPerS: 16 },
  { material: 'mild-steel', thicknessMm: 6, currentA: 60, rig: '60', speedMmPerS: 10 },
  { material: 'mild-steel', thicknessMm: 6, currentA: 60, rig: '60', speedMmPerS: 30 },
  { material: 'mild-steel', thicknessMm: 10, currentA: 60, rig: '60', speedMmPerS: 5, travelAngleDeg: 10 },
  { material: 'mild-steel', thicknessMm: 6, currentA: 60, rig: '60', speedMmPerS: 8, workAngleDeg: 30 },
  { material: 'stainless-steel', thicknessMm: 6, currentA: 60, rig: '60', speedMmPerS: 10 },
  { material: 'aluminium', thicknessMm: 6, currentA: 60, rig: '60', speedMmPerS: 25, standOffMm: 4 },
];

function nameOf(o: CouponOptions): string {
  const lean = o.travelAngleDeg ? ` travel ${o.travelAngleDeg} deg` : o.workAngleDeg ? ` work ${o.workAngleDeg} deg` : '';
  return `${o.material} ${o.thicknessMm} mm ${o.currentA} A ${o.speedMmPerS} mm/s${lean}`;
}

const rounded = (value: number | null): number | null => (value === null ? null : Number(value.toFixed(4)) + 0);

function look(): Pinned {
  const table: Pinned['coupons'] = {};
  for (const options of coupons) {
    const result = runCoupon(options);
    table[nameOf(options)] = {
      sparkAngleDeg: rounded(result.sparkAngleDeg),
      sparkSide: result.sparkSide,
      severedFraction: rounded(result.severedFraction),
      topKerfMm: rounded(result.topKerfMm),
      bottomKerfMm: rounded(result.bottomKerfMm),
      dragMm: rounded(result.dragMm),
      throughPowerFraction: rounded(result.throughPowerFraction),
      edgeDwellS: rounded(result.edgeDwellS),
      arcVoltageV: rounded(result.arcVoltageV),
      removedJ: rounded(result.energy.removedJ),
    };
  }
  const pierces: Pinned['pierces'] = {};
  for (const method of PIERCE_METHODS) {
    const condition = { material: 'mild-steel', thicknessMm: 6, currentA: 45, rig: '60' } as const;
    const { brokeThrough, ...figures } = pierceCoupon(condition, method);
    const shown = Object.entries(figures).map(([key, value]) => [key, rounded(value)] as const);
    pierces[`mild-steel 6 mm 45 A ${method}`] = { brokeThrough, ...Object.fromEntries(shown) };
  }
  const grooves: Pinned['grooves'] = {};
  for (const mode of ['gouge', 'mark'] as const) {
    const currentA = mode === 'gouge' ? 60 : 12;
    const groove = gougeCoupon({
      ...{ material: 'mild-steel', thicknessMm: 12, currentA, rig: '60', mode },
      ...{ pushAngleDeg: mode === 'gouge' ? 40 : 0, speedMmPerS: mode === 'gouge' ? 10 : 40, standOffMm: 3 },
    });
    grooves[`${mode} ${currentA} A`] = Object.fromEntries(Object.entries(groove).map(([key, value]) => [key, rounded(value)]));
  }
  return { coreVersion: CORE_VERSION, coupons: table, pierces, grooves, run: scriptedRun() };
}

/** Edge start on 6 mm, a curve with a changing lean, off the plate and back over the kerf; integers only, no library functions. */
function scriptedRun(): Pinned['run'] {
  const simulation = createSimulation({
    material: 'mild-steel',
    thicknessMm: 6,
    lengthMm: 80,
    widthMm: 60,
    rig: '60',
    currentA: 60,
    seed: 0,
    cutouts: [
      [
        { xMm: 50, yMm: 30 },
        { xMm: 58, yMm: 30 },
        { xMm: 58, yMm: 45 },
        { xMm: 50, yMm: 45 },
      ],
    ],
    supports: [{ xMm: 70, yMm: 5 }],
  });
  let throughTick = -1;
  const digests: string[] = [];
  for (let tick = 0; tick < 240 * 12; tick++) {
    const along = tick > 240 ? (tick - 240) * 0.045 : 0;
    simulation.step(
      quantiseHand({
        xMm: along % 90,
        yMm: 30 + (along * along) / 900 - (along > 60 ? (along - 60) * 1.2 : 0),
        heightMm: 1.5 + (tick % 480) / 600,
        leanXDeg: ((tick % 700) - 350) / 25,
        leanYDeg: (tick % 300) / 30,
        trigger: tick > 20 && tick % 1200 < 1150,
      }),
    );
    if (throughTick < 0 && simulation.isOpenAlongAxis(0.3, 30, 0, 0)) throughTick = simulation.tick;
    if (simulation.tick % 240 === 0) digests.push(simulation.digest());
  }
  const { blowbackMj, severedMm } = simulation.sample;
  return { throughTick, digests, blowbackMj, severedMm };
}

test('coupons and the scripted run are as pinned for this core version', () => {
  const now = look();
  expect(now.run.throughTick).toBeGreaterThan(100);
  expect(now.run.severedMm).toBeGreaterThan(40);
  if (process.env.KERFHAND_PIN === '1') writeFileSync(FILE, `${JSON.stringify(now, null, 2)}\n`);
  expect(now).toEqual(JSON.parse(readFileSync(FILE, 'utf8')));
});
