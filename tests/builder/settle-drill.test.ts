import { expect, test } from 'vitest';
import { hashFromRoute, routeFromHash } from '../../renderer/app/route.ts';
import { partOfPath, placeOfPath } from '../../renderer/builder/builder-parts.ts';
import { drillTextOf } from '../../renderer/builder/drill-text-of.ts';
import { beginHistory, edited, redone, STEPS_KEPT, sealed, undone } from '../../renderer/builder/edit-history.ts';
import { withShape } from '../../renderer/builder/line-shapes.ts';
import { copyOf, freeId, newDrill } from '../../renderer/builder/new-drill.ts';
import { settleDrill } from '../../renderer/builder/settle-drill.ts';
import { checkFeasibility, type Drill, type DrillGuide, drillSchema, parseDrill, windowOfDrill } from '../../sim-core/index.ts';

const fresh = newDrill(new Set());
const after = (change: (drill: Drill) => Drill, before = fresh) => settleDrill(before, change(before));
const withRig = (part: Partial<Drill['rig']>) => (drill: Drill) => ({ ...drill, rig: { ...drill.rig, ...part } });
const measuresOf = (drill: Drill) => drill.rubric.measures.map((measure) => measure.id);

test('the drill that everybody begins with can be cut, and nothing hangs on a name that is taken', () => {
  expect(checkFeasibility(fresh, { window: windowOfDrill(fresh) })).toEqual([]);
  expect(freeId('Cradle gusset, 10 mm', new Set())).toBe('cradle-gusset-10-mm');
  expect(freeId('Drill', new Set(['drill', 'drill-2']))).toBe('drill-3');
  expect(freeId('???', new Set())).toBe('drill');
  const copy = copyOf(fresh, new Set([fresh.id]));
  expect([copy.id, copy.title]).toEqual(['new-drill-our-own', 'New drill, our own']);
});

test('the nozzle follows the current, the guide the shield, the site the coating', () => {
  expect(after(withRig({ currentA: 60 })).rig.nozzle).toBe('middle');
  const guide: DrillGuide = { kind: 'straight-edge', side: 'left', offsetMm: 3 };
  const guided = after((drill) => ({ ...drill, guide }));
  expect(guided.guide).toMatchObject({ offsetMm: 8 });
  expect(after(withRig({ shield: 'open' }), guided).guide).toMatchObject({ offsetMm: 9.5 });
  const painted = after((drill) => ({ ...drill, plate: { ...drill.plate, surface: 'paint' as const } }));
  expect(painted.site.coating).toBe('paint');
  expect(after((drill) => ({ ...drill, plate: { ...drill.plate, surface: 'bare' as const } }), painted).site.coating).toBe(
    'none',
  );
});

test('a circle arm is set for the turn that is there, and follows it', () => {
  const round = withShape(fresh, 'round-hole');
  const armed = after((drill) => ({ ...drill, guide: { kind: 'circle' as const, radiusMm: 11 } }), settleDrill(fresh, round));
  expect(armed.guide).toEqual({ kind: 'circle', radiusMm: 28 });
  expect(checkFeasibility(armed, { window: windowOfDrill(armed) })).toEqual([]);
});

test('measures come and go with what they measure', () => {
  const pierced = settleDrill(fresh, withShape(fresh, 'round-hole'));
  expect(measuresOf(pierced)).toContain('pierce');
  expect(measuresOf(pierced)).not.toContain('edge-dwell');
  const byTrainee = after((drill) => ({ ...drill, rigCheck: 'by-trainee' as const }));
  expect(measuresOf(byTrainee)).toContain('rig-check');
  expect(measuresOf(after((drill) => ({ ...drill, rigCheck: 'done' as const }), byTrainee))).toEqual(measuresOf(fresh));
  const faulty = after((drill) => ({ ...drill, faults: ['wet-gas' as const] }));
  expect(measuresOf(faulty)).toContain('fault-finding');
});

test.each(['gouge', 'mark'] as const)('a rig that is to %s has all that belongs to it, and goes back to cutting', (mode) => {
  const other = after(withRig({ mode }));
  expect(drillSchema.safeParse(other).success).toBe(true);
  expect(checkFeasibility(other)).toEqual([]);
  expect(measuresOf(other)).not.toContain('severance');
  const back = after(withRig({ mode: 'cut' }), other);
  expect(measuresOf(back)).toContain('severance');
  expect(checkFeasibility(back, { window: windowOfDrill(back) })).toEqual([]);
});

test('a plate of another size keeps what stood at its far edges there', () => {
  const longer = after((drill) => ({ ...drill, plate: { ...drill.plate, lengthMm: 220, widthMm: 90 } }));
  expect(longer.path.segments).toEqual([{ kind: 'line', to: { xMm: 220, yMm: 50 } }]);
  expect(longer.plate.supports).toEqual([
    { xMm: 8, yMm: 8 },
    { xMm: 212, yMm: 8 },
  ]);
  const corner = settleDrill(fresh, withShape(fresh, 'corner'));
  const wider = after((drill) => ({ ...drill, plate: { ...drill.plate, widthMm: 140 } }), corner);
  for (const drill of [longer, wider]) expect(checkFeasibility(drill, { window: windowOfDrill(drill) })).toEqual([]);
});

test('what did not change is left as somebody wrote it', () => {
  const odd = withRig({ nozzle: 'middle' })(fresh);
  expect(settleDrill(odd, { ...odd, title: 'Another' }).rig.nozzle).toBe('middle');
});

test('a drill reads back from its text as it was', () => {
  for (const drill of [fresh, withShape(fresh, 'four-sided-hole'), after(withRig({ mode: 'gouge' }))]) {
    const text = drillTextOf(drill);
    const read = parseDrill(text);
    expect(read.ok && read.value).toEqual(drill);
    expect(Math.max(...text.split('\n').map((line) => (line.includes('"supports"') ? line.length : 0)))).toBeLessThanOrEqual(110);
  }
});

test('steps back and on again; going on with one thing is one step, and an edit ends what was undone', () => {
  let history = beginHistory('a');
  history = edited(history, 'b', 'title');
  history = edited(history, 'bc', 'title');
  history = edited(sealed(history), 'bcd', 'title');
  expect(history.past).toEqual(['a', 'bc']);
  history = undone(undone(history));
  expect([history.present, history.future]).toEqual(['a', ['bc', 'bcd']]);
  expect(undone(history)).toBe(history);
  history = redone(history);
  expect(history.present).toBe('bc');
  history = edited(history, 'x', null);
  expect([history.past, history.future]).toEqual([['a', 'bc'], []]);
  expect(redone(history)).toBe(history);
  for (let n = 0; n < STEPS_KEPT + 20; n++) history = edited(history, String(n), null);
  expect(history.past).toHaveLength(STEPS_KEPT);
});

test.each(['#/build', '#/build/own-patch'])('%s is an address of the builder', (hash) => {
  const route = routeFromHash(hash);
  expect(route.at).toBe('builder');
  expect(hashFromRoute(route)).toBe(hash);
});

test('a problem with one thing on the plan leads to it', () => {
  expect(
    [
      '$.path.start',
      '$.path.segments[1]',
      '$.plate.supports[3].xMm',
      '$.plate.cutouts[0]',
      '$.rig.clampSpots[1]',
      '$.path',
      '$.rig',
    ].map(placeOfPath),
  ).toEqual(['joint-0', 'joint-2', 'support-3', 'opening-0-0', 'clamp-1', null, null]);
});

test('every place of the text belongs to a part of the form', () => {
  expect(
    ['$.rig.currentA', '$.plate.supports[0]', '$.path.start', '$.rubric.measures[2]', '$.title', '$'].map(partOfPath),
  ).toEqual(['rig', 'plate', 'line', 'pass', 'card', 'line']);
});
