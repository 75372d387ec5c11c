// The rig check against the figures of the regulations it names, written here once more from the publications:
// 29 CFR 1910.133(a)(5) table, plasma arc cutting below 300 A: 8; 29 CFR 1910.252(a)(2): 35 feet, half an hour (both read);
// NFPA 51B since 2019: one hour (from memory). The other rules are common practice or from memory and say so in RIG_RULE_SOURCES.
import { describe, expect, test } from 'vitest';
import {
  checkRig,
  type Drill,
  neutralChoices,
  RIG_FINDING_IDS,
  RIG_RULE_SOURCES,
  type RigChoices,
  type RigFindingId,
  rightChoices,
  SHIELDS,
  stopsRun,
  supplyBarFor,
} from '../../sim-core/index.ts';
import { shippedDrill } from './drill-files.ts';

const FOOT_M = 0.3048;
const base = shippedDrill('hanger-tab-straight-6');
const clampSpots = [
  { id: 'drop', xMm: 20, yMm: 80, surface: 'bare' as const, onDrop: true },
  { id: 'painted', xMm: 20, yMm: 10, surface: 'paint' as const, onDrop: false },
  { id: 'bench', xMm: -50, yMm: -50, surface: 'bare' as const, onDrop: false },
];
const drill: Drill = { ...base, rig: { ...base.rig, clampSpots }, rigCheck: 'by-trainee' };
const right = rightChoices(drill);

function found(changes: Partial<RigChoices>, of: Drill = drill): [RigFindingId, string][] {
  return checkRig(of, { ...rightChoices(of), ...changes }).map(({ id, severity }) => [id, severity]);
}

function site(changes: Partial<Drill['site']>): Drill {
  return { ...drill, site: { ...drill.site, ...changes } };
}

const stainless: Drill = { ...drill, plate: { ...drill.plate, material: 'stainless-steel' } };
const watched = site({ combustiblesWithinM: 5 });

test('the right choices for every place and metal leave nothing to say', () => {
  for (const of of [drill, stainless, watched, site({ place: 'small-room', closedContainer: true, coating: 'zinc' })]) {
    expect(found({}, of)).toEqual([]);
  }
  expect(right.clampSpot).toBe('bench');
});

test('who has prepared nothing is stopped, and told the unsafe things first', () => {
  const findings = checkRig(drill, neutralChoices(drill));
  expect(stopsRun(findings)).toBe(true);
  const order = findings.map(({ severity }) => ['stops', 'wrong', 'note'].indexOf(severity));
  expect(order).toEqual([...order].sort());
  expect(findings.map(({ id }) => id)).toEqual(expect.arrayContaining(['no-eye-protection', 'part-missing', 'no-clamp']));
});

describe('eyes: shade 8 at least', () => {
  test.each([
    [null, [['no-eye-protection', 'stops']]],
    [5, [['shade-too-light', 'stops']]],
    [7, [['shade-too-light', 'stops']]],
    [8, []],
    [11, []],
  ] as [number | null, unknown[]][])('shade %j gives %j', (shade, findings) => {
    expect(found({ protection: { ...right.protection, shade } })).toEqual(findings);
  });
});

describe('fire: 35 feet, half an hour, an hour taught', () => {
  test.each([
    [35 * FOOT_M - 0.01, [['combustibles-left', 'stops']]],
    [35 * FOOT_M + 0.01, []],
  ])('something that burns at %d m and left there gives %j', (combustiblesWithinM, findings) => {
    expect(found({ combustibles: 'left' }, site({ combustiblesWithinM }))).toEqual(findings);
  });

  test.each([
    [0, [['no-fire-watch', 'stops']]],
    [30, [['fire-watch-short', 'note']]],
    [60, []],
  ] as [0 | 30 | 60, unknown[]][])('covered and watched for %i min gives %j', (fireWatchMin, findings) => {
    expect(found({ combustibles: 'covered', fireWatchMin }, watched)).toEqual(findings);
  });

  test('what was carried away needs no watch', () => {
    expect(found({ combustibles: 'cleared', fireWatchMin: 0 }, watched)).toEqual([]);
  });
});

describe('air', () => {
  test.each([
    ['mild steel in the hall', drill, 'none', [['no-ventilation', 'note']]],
    ['mild steel in the hall', drill, 'doors', []],
    ['mild steel outdoors', site({ place: 'outdoors' }), 'none', []],
    ['a small room', site({ place: 'small-room' }), 'none', [['no-ventilation', 'stops']]],
    ['a small room', site({ place: 'small-room' }), 'doors', [['ventilation-too-weak', 'stops']]],
    ['stainless steel', stainless, 'doors', [['ventilation-too-weak', 'stops']]],
    ['zinc', site({ coating: 'zinc' }), 'none', [['no-ventilation', 'stops']]],
  ] as [string, Drill, RigChoices['ventilation'], unknown[]][])('%s (%#), %s', (_what, of, ventilation, findings) => {
    expect(found({ ventilation }, of)).toEqual(findings);
  });
});

test.each([
  ['gloves', 'no-gloves'],
  ['jacket', 'no-jacket'],
  ['hearing', 'no-hearing-protection'],
] as const)('without %s: %s stops', (what, id) => {
  expect(found({ protection: { ...right.protection, [what]: false } })).toEqual([[id, 'stops']]);
});

test.each([
  ['an open trigger guard', { triggerGuardClosed: false }, drill, 'trigger-guard-open'],
  ['a closed container', { containerMadeSafe: false }, site({ closedContainer: true }), 'closed-container'],
  ['paint left on', { coatingRemoved: false }, site({ coating: 'paint' }), 'coating-left'],
] as [string, Partial<RigChoices>, Drill, RigFindingId][])('%s stops', (_what, changes, of, id) => {
  expect(found(changes, of)).toEqual([[id, 'stops']]);
});

describe('what shows itself at the arc only', () => {
  test.each([
    [{ stack: right.stack.slice(1) }, 'part-missing'],
    [{ stack: [...right.stack].reverse() }, 'parts-out-of-order'],
    [{ mode: 'gouge' }, 'wrong-mode'],
    [{ nozzle: 'fine' }, 'wrong-nozzle'],
    [{ nozzle: 'gouging' }, 'wrong-nozzle'],
    [{ shield: 'open' }, 'wrong-shield'],
    [{ currentA: 39 }, 'current-off'],
    [{ supplyBar: supplyBarFor(8) - 0.9 }, 'pressure-low'],
    [{ supplyBar: supplyBarFor(8) + 0.9 }, 'pressure-high'],
    [{ waterTrapDrained: false }, 'trap-not-drained'],
    [{ clampSpot: null }, 'no-clamp'],
    [{ clampSpot: 'painted' }, 'clamp-on-coating'],
    [{ clampSpot: 'drop' }, 'clamp-on-drop'],
  ] as [Partial<RigChoices>, RigFindingId][])('%j is wrong: %s', (changes, id) => {
    expect(found(changes)).toEqual([[id, 'wrong']]);
  });

  test('the pressure is right only for the hose that is there', () => {
    const long = { ...drill, rig: { ...drill.rig, hoseM: 30 } };
    expect(found({ supplyBar: supplyBarFor(8) }, long)).toEqual([['pressure-low', 'wrong']]);
    expect(found({ supplyBar: supplyBarFor(30) }, long)).toEqual([]);
  });

  test('a guide is set for the front that is fitted', () => {
    const guided: Drill = { ...drill, guide: { kind: 'straight-edge', side: 'left', offsetMm: SHIELDS.contact.frontRadiusMm } };
    expect(found({}, guided)).toEqual([]);
    expect(found({ guideOffsetMm: null }, guided)).toEqual([['guide-left-off', 'wrong']]);
    expect(found({ guideOffsetMm: SHIELDS.contact.frontRadiusMm + 1 }, guided)).toEqual([['guide-offset', 'wrong']]);
    expect(found({ shield: 'open' }, guided)).toEqual([
      ['wrong-shield', 'wrong'],
      ['guide-offset', 'wrong'],
    ]);
  });
});

test('every finding names where its rule stands, and every id and source is used', () => {
  const of = { ...site({ place: 'small-room', closedContainer: true, coating: 'zinc', combustiblesWithinM: 2 }) };
  const lots = [drill, stainless, of].flatMap((one) => [
    ...checkRig(one, neutralChoices(one)),
    ...checkRig(one, { ...rightChoices(one), combustibles: 'covered', fireWatchMin: 30 }),
    ...checkRig(one, { ...rightChoices(one), combustibles: 'covered', fireWatchMin: 0 }),
  ]);
  for (const { id, sourceId } of lots) {
    expect(RIG_FINDING_IDS).toContain(id);
    expect(RIG_RULE_SOURCES[sourceId].title.length).toBeGreaterThan(10);
  }
  expect(new Set(lots.map(({ sourceId }) => sourceId))).toEqual(new Set(Object.keys(RIG_RULE_SOURCES)));
});
