import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { qualityFigures } from '../../renderer/review/quality-figures.ts';
import { UNCUT_MARK } from '../../renderer/scene/level-paint.ts';
import { speak } from '../../renderer/text/language.ts';
import { money } from '../../renderer/ui/money.ts';
import { quantity } from '../../renderer/ui/units.ts';
import { type Drill, parseDrill, type QualityPlace, uLimitMm } from '../../sim-core/index.ts';

const folder = join(import.meta.dirname, '..', '..', 'scenarios');
const drills: Drill[] = readdirSync(folder)
  .filter((name) => name.endsWith('.json') && !name.endsWith('.schema.json'))
  .map((name) => {
    const result = parseDrill(readFileSync(join(folder, name), 'utf8'));
    if (!result.ok) throw new Error(`${name} cannot be read`);
    return result.value;
  });
const hanger = drills.find((drill) => drill.id === 'hanger-tab-straight-6') as Drill;

/** A place cut as it should be, 6 mm steel. */
const GOOD: QualityPlace = {
  sMm: 0.5,
  xMm: 0,
  yMm: 0,
  headingRad: 0,
  tick: 1,
  state: 'cut',
  topWidthMm: 2.2,
  bottomWidthMm: 2,
  depthMm: 6,
  uLeftMm: 0.05,
  uRightMm: 0.05,
  uMm: 0.05,
  uRange: 1,
  dragMm: 0.5,
  rz5Um: 12,
  rz5Range: 1,
  dross: { kind: 'none', mm: 0 },
  heatAffectedMm: 0.2,
};

const levelOf = (id: string, place: Partial<QualityPlace>): number | undefined =>
  qualityFigures(hanger)
    .find((figure) => figure.id === id)
    ?.levelOf({ ...GOOD, ...place });

describe('figures of the cut face', () => {
  test('every drill has some, each with five levels in words of their own, in both units', () => {
    for (const drill of drills) {
      const figures = qualityFigures(drill);
      expect(figures.length, drill.id).toBeGreaterThanOrEqual(2);
      expect(figures.some(({ id }) => id === 'groove-depth')).toBe(drill.intended.grooveDepthMm !== null);
      for (const units of ['metric', 'inch'] as const) {
        for (const figure of figures) expect(new Set(figure.legend(units)).size, `${drill.id} ${figure.id}`).toBe(5);
      }
    }
  });

  test('shares of a groove are written as the language has them', () => {
    const groove = drills.find((drill) => drill.intended.grooveDepthMm !== null) as Drill;
    const legend = () =>
      qualityFigures(groove)
        .find(({ id }) => id === 'groove-depth')
        ?.legend('metric')
        .join(' ') ?? '';
    for (const percent of ['10%', '25%', '50%']) expect(legend()).toContain(percent);
    speak('de');
    for (const percent of ['10\u00a0%', '25\u00a0%', '50\u00a0%']) expect(legend()).toContain(percent);
    speak('en');
  });

  test('a good place is level 1 of every figure, a place without metal of none', () => {
    for (const figure of qualityFigures(hanger)) {
      expect(figure.levelOf(GOOD), figure.id).toBe(1);
      const none = {
        ...GOOD,
        state: 'no-metal',
        tick: 0,
        uMm: null,
        uRange: null,
        rz5Um: null,
        rz5Range: null,
        dragMm: null,
      } as const;
      expect(figure.levelOf(none), figure.id).toBe(0);
    }
  });

  test('levels follow the ranges of the standard, and beyond the last they stay at the worst', () => {
    expect(levelOf('squareness', { uRange: 4 })).toBe(4);
    expect(levelOf('squareness', { uMm: 9, uRange: null })).toBe(5);
    expect(levelOf('profile', { rz5Range: 4 })).toBe(4);
    expect(levelOf('profile', { rz5Um: 400, rz5Range: null })).toBe(5);
    const legend =
      qualityFigures(hanger)
        .find(({ id }) => id === 'squareness')
        ?.legend('metric') ?? [];
    for (const range of [1, 2, 3, 4]) expect(legend[range - 1]).toContain(quantity(uLimitMm(range, 6), 'fine-mm', 'metric'));
  });

  test('drag, dross and heat rise through their levels; metal that is not cut has its own mark, and a level of its own figure', () => {
    expect([0.5, 1, 1.5, 2.4, 3].map((dragMm) => levelOf('drag', { dragMm }))).toEqual([1, 2, 3, 4, 5]);
    expect([0.2, 0.5, 0.9, 1.4].map((mm) => levelOf('dross', { dross: { kind: 'low-speed', mm } }))).toEqual([2, 3, 4, 5]);
    expect([0.2, 0.5, 1, 2, 3].map((heatAffectedMm) => levelOf('heat', { heatAffectedMm }))).toEqual([1, 2, 3, 4, 5]);
    const uncut = { state: 'uncut', uMm: null, uRange: null, dragMm: null, rz5Um: null, rz5Range: null } as const;
    for (const id of ['squareness', 'profile', 'drag']) expect(levelOf(id, uncut)).toBe(UNCUT_MARK);
    expect(levelOf('uncut', { ...uncut, depthMm: 5.5 })).toBe(2);
    expect(levelOf('uncut', { ...uncut, depthMm: 3 })).toBe(3);
    expect(levelOf('uncut', { ...uncut, depthMm: 0.5 })).toBe(4);
    expect(levelOf('uncut', { ...uncut, state: 'untouched', tick: 0, depthMm: 0 })).toBe(5);
  });
});

test('an amount stands behind the sign of its currency, to two decimals', () => {
  expect(money(1234.5, 'kr')).toBe('kr\u00a01,234.50');
  expect(money(0, '¤')).toBe('¤\u00a00.00');
});
