import { type JsonObject, type Migration, MigrationError } from './parse-versioned-file.ts';

/**
 * The way up from every older drill version, one named step each. A step is never edited once it has shipped;
 * each is exercised by an old file kept in tests/scenarios/old-files.
 */
export const DRILL_MIGRATIONS: readonly Migration[] = [
  { from: 0, name: 'draft-polyline-to-segments', apply: fromDraftPolyline },
  { from: 1, name: 'rig-fitted-out', apply: withRigFittedOut },
];

/** Tolerances that version 0 took for granted; they became data with version 1. */
const DRAFT_TOLERANCES = {
  sparkAngleDeg: { low: 15, high: 30 },
  standOffMm: { low: 0.8, high: 3 },
  leanDeg: 8,
  offLineMm: 1,
  speedVariation: 0.15,
  lateStartS: 0.6,
  overrunMm: 10,
};

const DRAFT_ON_REAL_PLATE =
  "Practice on a screen qualifies nobody. On real plate: the machine's own manual, your employer's rules and local codes, under supervision.";

/**
 * Version 0, the paper draft of the yard: the line was a bare list of [x, y] points (`line`), the dial was `amps`, the
 * card one text (`about`), and the rubric a table of weights with one `pass` mark. The plate and its supports have
 * kept their shape.
 */
function fromDraftPolyline(file: JsonObject): JsonObject {
  const { line, rig, about, pass, weights, ...kept } = file;
  const points = pointsOf(line);
  return {
    ...kept,
    technique: 'edge-start',
    card: { purpose: about, task: about, hints: [], cautions: ['eyes', 'fume', 'fire'], onRealPlate: DRAFT_ON_REAL_PLATE },
    rig: rigOf(rig),
    path: { start: points[0], segments: points.slice(1).map((to) => ({ kind: 'line', to })) },
    start: 'edge',
    finish: 'run-off',
    guide: 'freehand',
    cueLevel: kept.cueLevel ?? 'full',
    attempts: kept.attempts ?? null,
    tolerances: DRAFT_TOLERANCES,
    rubric: { passMark: pass, measures: weightsOf(weights) },
  };
}

function pointsOf(line: unknown): { xMm: unknown; yMm: unknown }[] {
  if (!Array.isArray(line) || line.length < 2)
    throw new MigrationError('$.line', 'The line must be a list of two points or more.');
  return line.map((pair: unknown, index) => {
    if (!Array.isArray(pair) || pair.length !== 2)
      throw new MigrationError(`$.line[${index}]`, 'A point must be a pair [x, y] in mm.');
    return { xMm: pair[0] as unknown, yMm: pair[1] as unknown };
  });
}

function rigOf(rig: unknown): JsonObject {
  if (typeof rig !== 'object' || rig === null || Array.isArray(rig))
    throw new MigrationError('$.rig', 'The rig must be an object.');
  const { amps, ...kept } = rig as JsonObject;
  return { ...kept, currentA: amps };
}

function weightsOf(weights: unknown): JsonObject[] {
  if (typeof weights !== 'object' || weights === null || Array.isArray(weights)) {
    throw new MigrationError('$.weights', 'The weights must be an object of measure and weight.');
  }
  return Object.entries(weights).map(([id, weight]) => ({ id, weight: weight as unknown }));
}

/**
 * Version 1 knew one technique, the edge start on bare plate with a rig that was as it should be. Version 2 says so: how the
 * rig is fitted out, what lies around, what is asked of the metal.
 */
function withRigFittedOut(file: JsonObject): JsonObject {
  const { rig, guide, tolerances, ...kept } = file;
  if (guide !== 'freehand') throw new MigrationError('$.guide', 'The guide must be "freehand".');
  return {
    ...kept,
    plate: { ...objectAt('$.plate', kept.plate), surface: 'bare', airGap: null, openings: null },
    site: { place: 'hall', combustiblesWithinM: null, closedContainer: false, coating: 'none' },
    rig: fittedOut(objectAt('$.rig', rig)),
    rigCheck: 'done',
    faults: [],
    leadInMm: 0,
    guide: { kind: 'freehand' },
    intended: {
      bevelDeg: 0,
      travelAngleDeg: null,
      speedMmPerS: null,
      grooveDepthMm: null,
      grooveWidthMm: null,
      passes: 1,
    },
    tolerances: {
      ...objectAt('$.tolerances', tolerances),
      sizeMm: 0.8,
      evenness: 0.8,
      spentLifeShare: 0.02,
      gapDelayS: 0.5,
    },
  };
}

/** The nozzle that version 1 took for granted at a current, A. */
function fittedOut(rig: JsonObject): JsonObject {
  const { currentA } = rig;
  if (typeof currentA !== 'number') throw new MigrationError('$.rig.currentA', 'The current must be a number of ampere.');
  return {
    ...rig,
    mode: 'cut',
    nozzle: currentA <= 45 ? 'small' : currentA <= 70 ? 'middle' : 'large',
    shield: 'contact',
    hoseM: 8,
    clampSpots: [{ id: 'bench', xMm: -50, yMm: -50, surface: 'bare', onDrop: false }],
  };
}

function objectAt(path: string, value: unknown): JsonObject {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new MigrationError(path, 'This must be an object.');
  return value as JsonObject;
}
