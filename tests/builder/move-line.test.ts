import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LINE_SHAPES, withShape } from '../../renderer/builder/line-shapes.ts';
import {
  addStraight,
  addTurn,
  isClosed,
  moveCentre,
  moveJoint,
  removeJoint,
  reshapeTurn,
  turnRound,
} from '../../renderer/builder/move-line.ts';
import { newDrill } from '../../renderer/builder/new-drill.ts';
import { apartMm, jointsOf, lengthsOf } from '../../renderer/builder/path-joints.ts';
import { addClamp, addOpening, addSupport, movePlace, placesOf, removePlace } from '../../renderer/builder/plan-places.ts';
import { checkFeasibility, type Drill, drillSchema, parseDrill, pathGeometry } from '../../sim-core/index.ts';

const folder = join(import.meta.dirname, '..', '..', 'scenarios');
const shipped: Drill[] = readdirSync(folder)
  .filter((name) => name.endsWith('.json') && !name.endsWith('.schema.json'))
  .map((name) => {
    const read = parseDrill(readFileSync(join(folder, name), 'utf8'));
    if (!read.ok) throw new Error(`${name} cannot be read`);
    return read.value;
  });
const drillOf = (id: string) => shipped.find((drill) => drill.id === id) as Drill;
const fresh = newDrill(new Set());
/** What the drawing alone shows. */
const problemsOf = (drill: Drill) =>
  checkFeasibility(drill, {
    window: { windowLowMmPerS: 1, windowHighMmPerS: 2, losingSpeedMmPerS: 3, edgeDwellS: 0 },
    skipPierce: true,
  });

test('joints and lengths are those of the core, for every shipped drill', () => {
  expect(shipped.length).toBeGreaterThan(20);
  for (const { path } of shipped) {
    const geometry = pathGeometry(path);
    const lengths = lengthsOf(path);
    expect(lengths.at(-1)).toBeCloseTo(geometry.lengthMm, 6);
    for (const [n, joint] of jointsOf(path).entries()) {
      expect(apartMm(joint, geometry.pointAt(lengths[n] as number))).toBeLessThan(1e-6);
    }
  }
});

describe('shapes to begin from', () => {
  const plates = [
    { lengthMm: 160, widthMm: 100 },
    { lengthMm: 60, widthMm: 120 },
    { lengthMm: 400, widthMm: 300 },
  ];
  test.each(plates.flatMap((plate) => LINE_SHAPES.map((shape) => ({ ...plate, shape }))))(
    '%o fits its plate',
    ({ shape, ...size }) => {
      const supports = [{ xMm: 4, yMm: 4 }];
      const drill = withShape({ ...fresh, plate: { ...fresh.plate, ...size, supports } }, shape);
      const rubric = { ...drill.rubric, measures: drill.rubric.measures.filter((measure) => measure.id !== 'edge-dwell') };
      expect(problemsOf({ ...drill, rubric })).toEqual([]);
    },
  );
});

describe('pulling at a line', () => {
  const bend = withShape(fresh, 'bend');
  const hole = withShape(fresh, 'four-sided-hole');
  const round = withShape(fresh, 'round-hole');

  test('the end of a straight piece goes where it is put, and the turn after it comes along as it is', () => {
    const before = bend.path.segments[1];
    const drill = moveJoint(bend, 1, { xMm: 40, yMm: 30 });
    expect(jointsOf(drill.path)[1]).toEqual({ xMm: 40, yMm: 30 });
    const after = drill.path.segments[1];
    if (before?.kind !== 'arc' || after?.kind !== 'arc') throw new Error('no turn');
    expect(after.sweepDeg).toBe(before.sweepDeg);
    expect(apartMm(after.centre, { xMm: 40, yMm: 30 })).toBeCloseTo(apartMm(before.centre, jointsOf(bend.path)[1] as never), 3);
  });

  test('the end of a turn stays on its circle', () => {
    const [, from] = jointsOf(bend.path);
    const arc = bend.path.segments[1];
    if (arc?.kind !== 'arc' || !from) throw new Error('no turn');
    const drill = moveJoint(bend, 2, { xMm: arc.centre.xMm, yMm: arc.centre.yMm + 70 });
    const end = jointsOf(drill.path)[2];
    expect(apartMm(end as never, arc.centre)).toBeCloseTo(apartMm(from, arc.centre), 3);
    expect(drill.path.segments[1]).toMatchObject({ sweepDeg: 180 });
  });

  test('a closed line stays closed wherever it is pulled, and its lead-in ends where it meets itself', () => {
    for (const joint of [0, 1, 2, 3, 4, 5, 6]) {
      const old = jointsOf(hole.path)[joint] as { xMm: number; yMm: number };
      const drill = moveJoint(hole, joint, { xMm: old.xMm + 3, yMm: old.yMm - 2 });
      expect(drill).not.toBe(hole);
      expect(isClosed(drill)).toBe(true);
      expect(problemsOf(drill).filter((problem) => problem.path.startsWith('$.path'))).toEqual([]);
      expect(drill.leadInMm).toBeCloseTo(lengthsOf(drill.path)[1] as number, 3);
    }
  });

  test('a full circle goes along with its lead-in; another radius grows from where it begins', () => {
    const drill = moveCentre(round, 1, { xMm: 90, yMm: 45 });
    expect(isClosed(drill)).toBe(true);
    expect(drill.leadInMm).toBe(round.leadInMm);
    const wider = reshapeTurn(drill, 1, { radiusMm: 20 });
    const arc = wider.path.segments[1];
    expect(arc?.kind === 'arc' && apartMm(arc.centre, jointsOf(wider.path)[1] as never)).toBeCloseTo(20, 3);
    expect(isClosed(wider)).toBe(true);
  });

  test('a line grows straight and in turns, a closed one by way of the new point; what is taken away leaves a line', () => {
    const longer = addTurn(addStraight(fresh, { xMm: 160, yMm: 80 }));
    expect(longer.path.segments.map((segment) => segment.kind)).toEqual(['line', 'line', 'arc']);
    expect(removeJoint(removeJoint(longer, 3), 2).path).toEqual(fresh.path);
    expect(removeJoint(fresh, 1)).toBe(fresh);
    const around = addStraight(hole, { xMm: 60, yMm: 20 });
    expect(around.path.segments).toHaveLength(hole.path.segments.length + 1);
    expect(isClosed(around)).toBe(true);
    expect(removeJoint(longer, 0).path.start).toEqual({ xMm: 160, yMm: 50 });
  });

  test('cut the other way round it is the same line, and a guide stays where it stands', () => {
    const guided: Drill = { ...bend, guide: { kind: 'template', side: 'left', offsetMm: 8 } };
    const other = turnRound(guided);
    expect(lengthsOf(other.path).at(-1)).toBeCloseTo(lengthsOf(bend.path).at(-1) as number, 2);
    expect(other.path.start).toEqual(jointsOf(bend.path).at(-1));
    expect(other.guide).toMatchObject({ side: 'right' });
    for (const [n, joint] of jointsOf(turnRound(other).path).entries()) {
      expect(apartMm(joint, jointsOf(bend.path)[n] as never)).toBeLessThan(0.01);
    }
    expect(turnRound(hole)).toBe(hole);
  });

  test('no piece is ever pulled to nothing', () => {
    expect(moveJoint(fresh, 1, { xMm: 0.2, yMm: 50 })).toBe(fresh);
  });
});

test('a lead-in does not grow beyond what a drill may have', () => {
  const wide = withShape({ ...fresh, plate: { ...fresh.plate, lengthMm: 600, widthMm: 600 } }, 'round-hole');
  expect(moveJoint(wide, 0, { xMm: 300, yMm: 300 }).leadInMm).toBeCloseTo(168, 3);
  expect(moveJoint(wide, 0, { xMm: 200, yMm: 300 })).toBe(wide);
});

test('the end of a turn pulled to half a degree past its beginning leaves a whole turn, not more', () => {
  const slot = drillOf('galley-vent-slot-3');
  // The turn begins straight below its centre at 80, 40 and goes anticlockwise.
  expect(moveJoint(slot, 3, { xMm: 80.1, yMm: 24 }).path.segments[2]).toMatchObject({ kind: 'arc', sweepDeg: 360 });
});

test('whatever is pulled, put or taken away, the drill can always be written down', () => {
  const at = fc.record({ xMm: fc.integer({ min: -900, max: 900 }), yMm: fc.integer({ min: -900, max: 900 }) });
  const step = fc.record({ what: fc.integer({ min: 0, max: 6 }), which: fc.nat(40), at });
  fc.assert(
    fc.property(fc.constantFrom(...shipped), fc.array(step, { maxLength: 12 }), (begun, steps) => {
      let drill = begun;
      for (const { what, which, at: to } of steps) {
        const places = placesOf(drill);
        const place = places[which % places.length];
        if (!place) continue;
        if (what === 0) drill = addSupport(drill, { xMm: 10, yMm: 10 });
        else if (what === 1) drill = addClamp(drill, to);
        else if (what === 2) drill = addOpening(drill, to);
        else if (what === 3) drill = addStraight(drill);
        else if (what === 4) drill = removePlace(drill, place.id);
        else drill = movePlace(drill, place.id, to);
        if (drill.path.segments.length > 60) break;
      }
      expect(() => pathGeometry(drill.path)).not.toThrow();
      const written = drillSchema.safeParse(drill);
      expect(written.error?.issues ?? []).toEqual([]);
    }),
    { seed: 20_260_109, numRuns: 150 },
  );
});

test('the plan of a round hole has a place for everything that is on it, and none for an end that is its start', () => {
  const drill = drillOf('porthole-circle-guide-6');
  expect(placesOf(drill).map((place) => place.kind)).toEqual([
    'start',
    'corner',
    'centre',
    'centre',
    'support',
    'support',
    'support',
    'support',
    'clamp',
    'clamp',
    'clamp',
  ]);
});
