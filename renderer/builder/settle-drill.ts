import {
  type Drill,
  guideOffsetMm,
  MARKING_A,
  type MeasureId,
  nozzleFor,
  OUTCOME_MEASURES,
  RIGS,
  type RigMode,
} from '../../sim-core/index.ts';
import { apartMm, jointsOf, type PlanPoint, rounded } from './path-joints.ts';

type Measures = Drill['rubric']['measures'];

/** What a groove or a mark is aimed at until somebody says otherwise; lengths in mm, speeds in mm/s, leans in degrees. */
const GROOVE: Drill['intended'] = {
  bevelDeg: 0,
  travelAngleDeg: { low: -48, high: -32 },
  speedMmPerS: { low: 10, high: 14 },
  grooveDepthMm: { low: 2.4, high: 4.2 },
  grooveWidthMm: { low: 4, high: 7.5 },
  passes: 1,
};
const MARK: Drill['intended'] = {
  bevelDeg: 0,
  travelAngleDeg: null,
  speedMmPerS: { low: 25, high: 42 },
  grooveDepthMm: { low: 0.1, high: 0.5 },
  grooveWidthMm: null,
  passes: 1,
};
/** Marks that a run has to reach in what a drill comes to ask for: a pierce as much that one begun upright, which is to be rolled, does not pass. */
const LEAST_MARK: Partial<Record<MeasureId, number>> = { pierce: 60 };
const LEAST_OF_OTHERS = 40;
const MARKING_CURRENT_A = 10;
const CUTTING_CURRENT_A = 45;

const inSurface = (mode: RigMode): boolean => mode === 'gouge' || mode === 'mark';

/**
 * What follows from an edit, so that nobody has to think of it twice: the nozzle of a current, the guide's distance of a shield,
 * the measures of a start. Only what hangs on the things that changed is touched. Text that somebody wrote is left as it is.
 */
export function settleDrill(before: Drill, after: Drill): Drill {
  let drill = after;
  if (drill.rig.mode !== before.rig.mode) drill = withMode(before, drill);
  if (drill.rig.currentA !== before.rig.currentA) {
    drill = { ...drill, rig: { ...drill.rig, nozzle: nozzleFor(drill.rig.mode, drill.rig.currentA) } };
  }
  drill = withPlateSize(before, drill);
  if (drill.plate.surface !== before.plate.surface) drill = withCoating(before, drill);
  drill = withGuide(before, drill);
  return withMeasures(before, drill);
}

function withMode(before: Drill, drill: Drill): Drill {
  const { mode } = drill.rig;
  const dial = RIGS[drill.rig.class];
  const wasMark = before.rig.mode === 'mark';
  const currentA =
    mode === 'mark'
      ? MARKING_CURRENT_A
      : wasMark && drill.rig.currentA <= MARKING_A.high
        ? Math.min(CUTTING_CURRENT_A, dial.dialMaxA)
        : drill.rig.currentA;
  const shield = mode === 'gouge' ? 'wide' : drill.rig.shield === 'wide' ? 'contact' : drill.rig.shield;
  const plain: Drill['intended'] = { ...MARK, speedMmPerS: null, grooveDepthMm: null };
  const intended = mode === 'gouge' ? GROOVE : mode === 'mark' ? MARK : inSurface(before.rig.mode) ? plain : drill.intended;
  return { ...drill, intended, rig: { ...drill.rig, shield, currentA, nozzle: nozzleFor(mode, currentA) } };
}

/** What stood at the far edges of the plate stands at them again when the plate has another size; so do supports near them. */
function withPlateSize(before: Drill, drill: Drill): Drill {
  const { lengthMm, widthMm } = drill.plate;
  const was = before.plate;
  if ((lengthMm === was.lengthMm && widthMm === was.widthMm) || drill.path !== before.path) return drill;
  const atEdge = (point: PlanPoint): PlanPoint => ({
    xMm: point.xMm === was.lengthMm ? lengthMm : point.xMm,
    yMm: point.yMm === was.widthMm ? widthMm : point.yMm,
  });
  const nearEdge = (value: number, old: number, now: number) =>
    value > old / 2 ? rounded(Math.max(0, now - (old - value))) : value;
  const path: Drill['path'] = {
    start: atEdge(drill.path.start),
    segments: drill.path.segments.map((segment) =>
      segment.kind === 'line' ? { kind: 'line', to: atEdge(segment.to) } : segment,
    ),
  };
  const supports = drill.plate.supports.map((support) => ({
    xMm: nearEdge(support.xMm, was.lengthMm, lengthMm),
    yMm: nearEdge(support.yMm, was.widthMm, widthMm),
  }));
  return { ...drill, path, plate: { ...drill.plate, supports } };
}

function withCoating(before: Drill, drill: Drill): Drill {
  const { surface } = drill.plate;
  const wasItsOwn = drill.site.coating === before.plate.surface;
  const coating = surface === 'paint' || surface === 'zinc' ? surface : wasItsOwn ? 'none' : drill.site.coating;
  return { ...drill, site: { ...drill.site, coating } };
}

/** A guide is set for the torch front that slides along it; an arm for the turn that it goes round. */
function withGuide(before: Drill, drill: Drill): Drill {
  const { guide, rig, path } = drill;
  if ('offsetMm' in guide) {
    if (guide === before.guide && rig.shield === before.rig.shield) return drill;
    return { ...drill, guide: { ...guide, offsetMm: guideOffsetMm(rig.shield) } };
  }
  if (guide.kind !== 'circle' || (guide === before.guide && path === before.path)) return drill;
  const joints = jointsOf(path);
  const radii = path.segments.flatMap((segment, n) =>
    segment.kind === 'arc' ? [apartMm(joints[n] as PlanPoint, segment.centre)] : [],
  );
  const nearest = radii.toSorted((a, b) => Math.abs(a - guide.radiusMm) - Math.abs(b - guide.radiusMm))[0];
  return nearest === undefined ? drill : { ...drill, guide: { ...guide, radiusMm: Math.min(300, Math.max(5, nearest)) } };
}

/** Which measures have a meaning in a drill at all, of those that hang on something. */
export function meantMeasures(drill: Drill): Partial<Record<MeasureId, boolean>> {
  const surface = inSurface(drill.rig.mode);
  return {
    severance: !surface,
    'edge-dwell': drill.start === 'edge' && !surface,
    pierce: drill.start !== 'edge',
    'groove-depth': drill.intended.grooveDepthMm !== null,
    'groove-evenness': drill.intended.grooveDepthMm !== null,
    'gap-crossing': drill.plate.openings !== null,
    'rig-check': drill.rigCheck === 'by-trainee',
    'fault-finding': drill.faults.length > 0,
  };
}

function withMeasures(before: Drill, drill: Drill): Drill {
  const [was, is] = [meantMeasures(before), meantMeasures(drill)];
  let measures: Measures = drill.rubric.measures;
  for (const id of Object.keys(is) as MeasureId[]) {
    if (was[id] === is[id]) continue;
    if (!is[id]) measures = measures.filter((measure) => measure.id !== id);
    else if (!measures.some((measure) => measure.id === id))
      measures = [...measures, { id, weight: 2, mustReach: LEAST_MARK[id] ?? LEAST_OF_OTHERS }];
  }
  if (measures === drill.rubric.measures) return drill;
  if (!measures.some((measure) => OUTCOME_MEASURES.includes(measure.id))) {
    measures = [{ id: 'severance', weight: 1, mustReach: 90 }, ...measures];
  }
  return { ...drill, rubric: { ...drill.rubric, measures } };
}
