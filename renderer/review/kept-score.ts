import type { ScoreRecord } from '../../electron/contract.ts';
import type { Advice, Band, Evidence, FigureUnit, MeasureScore, Score, ScoreReason } from '../../sim-core/index.ts';
import { isTextKey } from '../text/say.ts';

const UNITS: readonly unknown[] = ['mm', 'mm/s', 'deg', 's', 'share', 'none'] satisfies FigureUnit[];

/** By the kind of a reason, the figures that its sentence needs. */
const REASON_FIGURES: Readonly<Record<ScoreReason['kind'], readonly string[]>> = {
  'not-severed': ['uncutMm'],
  'not-grooved': ['missingMm'],
  'cut-aside': ['asideMm'],
  'below-pass-mark': ['score', 'passMark'],
  'measure-below': ['mark', 'mustReach'],
  'far-off': ['share'],
};

type Fields = Record<string, unknown>;
const isFields = (value: unknown): value is Fields => typeof value === 'object' && value !== null;
const isFigure = (value: unknown): value is number => Number.isFinite(value);
const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);

/**
 * The score of a kept run as the page shows one. Only its named parts were checked when it was taken in: the rest came with a
 * file, or from another core. What this page has no words for, or no figure, is left out; marks and total always stand.
 */
export function keptScore(record: ScoreRecord): Score {
  const measures = record.measures.map(keptMeasure);
  const { reasons, firstThingToChange } = record as unknown as Fields;
  return {
    score: record.score,
    passed: record.passed,
    reasons: listOf(reasons).filter(isReason),
    measures,
    firstThingToChange: keptAdvice(firstThingToChange, measures, record),
  };
}

function keptMeasure(measure: ScoreRecord['measures'][number]): MeasureScore {
  const { mustReach, band, evidence } = measure as unknown as Fields;
  return {
    id: measure.id as MeasureScore['id'],
    mark: measure.mark,
    weight: measure.weight,
    mustReach: isFigure(mustReach) ? mustReach : null,
    band: isBand(band) ? band : null,
    evidence: listOf(evidence).filter(isEvidence),
  };
}

function isBand(value: unknown): value is Band {
  const isEnd = (end: unknown) => end === null || isFigure(end);
  return isFields(value) && isEnd(value.low) && isEnd(value.high) && UNITS.includes(value.unit);
}

function isEvidence(value: unknown): value is Evidence {
  if (!isFields(value) || ![value.fromTick, value.toTick, value.lostMarks].every(isFigure)) return false;
  return UNITS.includes(value.unit) && typeof value.fault === 'string' && isTextKey(`fault.${value.fault}`);
}

function isReason(value: unknown): value is ScoreReason {
  if (!isFields(value) || typeof value.kind !== 'string' || !Object.hasOwn(REASON_FIGURES, value.kind)) return false;
  if ('measureId' in value && typeof value.measureId !== 'string') return false;
  return REASON_FIGURES[value.kind as ScoreReason['kind']].every((name) => isFigure(value[name]));
}

/** Its index counts the stretches as they came; where one of them is left out it points nowhere. */
function keptAdvice(value: unknown, measures: readonly MeasureScore[], record: ScoreRecord): Advice | null {
  if (!isFields(value) || typeof value.key !== 'string' || !isTextKey(`advice.${value.key}`)) return null;
  const at = measures.findIndex(({ id }) => id === value.measureId);
  if (at === -1) return null;
  const came = listOf((record.measures[at] as unknown as Fields).evidence);
  const points = came.length === measures[at]?.evidence.length && Object.hasOwn(came, Number(value.evidenceIndex));
  return { ...value, evidenceIndex: points ? value.evidenceIndex : null } as unknown as Advice;
}
