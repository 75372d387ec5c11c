import {
  ARC_STATES,
  type KeptScore,
  MEASURE_IDS,
  type MeasureId,
  type ReadRunFile,
  readTrace,
  type Score,
  TICK_HZ,
} from '../../../sim-core/index.ts';
import { FAULT_WORDS } from '../../command-line/score-words.ts';
import { HostError } from '../host-error.ts';
import { MATERIAL_WORDS, MEASURE_WORDS } from './report-words.ts';
import type { VerdictPayload } from './verdict.ts';

/** What stands in a report of one run; plain data, so that it can be made, checked and drawn apart. */
export interface Report {
  yard: string;
  drillTitle: string;
  person: string | null;
  /** What stands against the run in the ledger of its yard, in a sentence; null where nothing does. */
  warning: string | null;
  beganAt: string;
  lastedS: number;
  material: string;
  /** With its unit. */
  thickness: string;
  rig: string;
  currentA: number;
  hand: string;
  coreVersion: string;
  seed: number;
  runDigest: string;
  /** Null for a run that was not finished. */
  result: { score: number; passed: boolean } | null;
  measures: ReportMeasure[];
  firstThing: string | null;
  verdict: ReportVerdict | null;
  traces: ReportTrace[];
  pictures: ReportPicture[];
  cautions: ReadRunFile['drill']['card']['cautions'];
  madeAt: string;
  appVersion: string;
}

export interface ReportMeasure {
  name: string;
  mark: number;
  weight: number;
  mustReach: number | null;
  /** What cost most, in words; null where nothing did. */
  note: string | null;
  fromS: number | null;
  overruledTo: number | null;
}

export interface ReportVerdict extends Pick<VerdictPayload, 'decision' | 'reasons' | 'assessor' | 'at'> {
  overruled: { name: string; from: number; to: number; reason: string }[];
  scoreAfter: number;
  /** Key that signed it; null where it was not signed. */
  keyId: string | null;
}

/** A figure over time while the arc burnt on the metal; NaN where there is none. */
export interface ReportTrace {
  name: string;
  unit: string;
  hz: number;
  fromS: number;
  values: Float32Array;
  low: number | null;
  high: number | null;
}

/** A picture as PNG, with a line of words that says what it shows. */
export interface ReportPicture {
  caption: string;
  png: Uint8Array;
}

/** What the run file itself does not say. */
export interface ReportExtras {
  yard: string;
  person: string | null;
  warning: string | null;
  beganAt: string;
  runDigest: string;
  verdict:
    | (Omit<VerdictPayload, 'format' | 'formatVersion' | 'runId' | 'drillDigest' | 'runDigest' | 'score' | 'marks'> & {
        scoreAfter: number;
        keyId: string | null;
      })
    | null;
  pictures: ReportPicture[];
  /** What lengths and speeds are printed in. */
  units: Units;
  madeAt: string;
  appVersion: string;
}

type Units = 'metric' | 'inch';

const TRANSFERRED = ARC_STATES.indexOf('transferred');
const MOST_TRACES = 4;
const MOST_PICTURES = 2;
/** A few bytes of PNG can stand for gigabytes of picture: no more than twice what a large screen shows. */
const MOST_PIXELS = 16_000_000;

type BandEnds = { low: number | null; high: number | null };

/** In the order in which they are looked for: those with a band first, of the others as many as there is room for. */
const TRACES: readonly { field: string; name: string; unit: string; band: (run: ReadRunFile) => BandEnds | null }[] = [
  { field: 'speedMmPerS', name: 'Travel speed', unit: 'mm/s', band: (run) => bandOf(run, 'travel-speed') },
  { field: 'sparkAngleDeg', name: 'Spark lean', unit: '°', band: (run) => bandOf(run, 'spark-angle') },
  { field: 'standOffMm', name: 'Stand-off', unit: 'mm', band: (run) => bandOf(run, 'stand-off') },
  { field: 'travelAngleDeg', name: 'Travel angle', unit: '°', band: (run) => run.drill.intended.travelAngleDeg },
  { field: 'workAngleDeg', name: 'Work angle', unit: '°', band: workAngleBand },
  { field: 'arcVoltageV', name: 'Arc voltage', unit: 'V', band: () => null },
];

/**
 * Gathers the report of a run that was read.
 * @throws HostError 'bad-request' where there are too many pictures, or one is no PNG
 */
export function reportOf(run: ReadRunFile, extras: ReportExtras): Report {
  if (extras.pictures.length > MOST_PICTURES)
    throw new HostError('bad-request', `A report has room for ${MOST_PICTURES} pictures.`);
  for (const { caption, png } of extras.pictures) {
    if (!isPng(png)) throw new HostError('bad-request', `The picture "${caption.slice(0, 60)}" is no PNG.`);
    if (!isPrintableSize(png)) {
      throw new HostError('too-large', `The picture "${caption.slice(0, 60)}" has more than ${MOST_PIXELS} pixels.`);
    }
  }
  const { drill, score } = run;
  const { verdict } = extras;
  const marks = new Map(score?.measures.map(({ id, mark }) => [id, mark]));
  const change = score && 'firstThingToChange' in score ? (score as Score).firstThingToChange : null;
  return {
    yard: extras.yard,
    drillTitle: drill.title,
    person: extras.person,
    warning: extras.warning,
    beganAt: extras.beganAt,
    lastedS: run.tickCount / TICK_HZ,
    material: MATERIAL_WORDS[drill.plate.material] ?? drill.plate.material,
    thickness: thicknessText(drill.plate.thicknessMm, extras.units),
    rig: drill.rig.class,
    currentA: run.choices?.currentA ?? drill.rig.currentA,
    hand: run.hand.kind === 'script' ? run.hand.name : run.hand.kind,
    coreVersion: run.coreVersion,
    seed: run.seed,
    runDigest: extras.runDigest,
    result: score && { score: score.score, passed: score.passed },
    measures: measuresOf(score as KeptScore | null, verdict?.overruled ?? []),
    firstThing: change ? (FAULT_WORDS[change.key] ?? null) : null,
    verdict: verdict && {
      decision: verdict.decision,
      reasons: verdict.reasons,
      assessor: verdict.assessor,
      at: verdict.at,
      scoreAfter: verdict.scoreAfter,
      keyId: verdict.keyId,
      overruled: verdict.overruled.map(({ measureId, mark, reason }) => {
        return { name: measureName(measureId), from: marks.get(measureId) ?? Number.NaN, to: mark, reason };
      }),
    },
    traces: tracesOf(run, extras.units),
    pictures: extras.pictures,
    cautions: drill.card.cautions,
    madeAt: extras.madeAt,
    appVersion: extras.appVersion,
  };
}

function measuresOf(score: KeptScore | null, overruled: VerdictPayload['overruled']): ReportMeasure[] {
  // Another core may have kept other things with a measure: whatever is not as expected is left out.
  return (score?.measures ?? []).map((measure) => {
    const worst = Array.isArray(measure.evidence)
      ? (measure.evidence[0] as { fault?: unknown; fromTick?: unknown } | undefined)
      : undefined;
    const fault = typeof worst?.fault === 'string' && Object.hasOwn(FAULT_WORDS, worst.fault) ? worst.fault : null;
    return {
      name: measureName(measure.id),
      mark: measure.mark,
      weight: measure.weight,
      mustReach: typeof measure.mustReach === 'number' ? measure.mustReach : null,
      note: fault && FAULT_WORDS[fault as keyof typeof FAULT_WORDS],
      fromS: fault && typeof worst?.fromTick === 'number' && worst.fromTick > 0 ? worst.fromTick / TICK_HZ : null,
      overruledTo: overruled.find(({ measureId }) => measureId === measure.id)?.mark ?? null,
    };
  });
}

function measureName(id: string): string {
  return MEASURE_IDS.some((known) => known === id) ? MEASURE_WORDS[id as MeasureId] : id;
}

const MM_PER_INCH = 25.4;

/** Whole or decimal millimetres, or thousandths of an inch. */
function thicknessText(mm: number, units: Units): string {
  return units === 'inch' ? `${(mm / MM_PER_INCH).toFixed(3)} in` : `${mm} mm`;
}

/** Unit in which a figure is printed, and what it is multiplied by. */
function printedIn(unit: string, units: Units): { unit: string; factor: number } {
  if (units === 'inch' && unit === 'mm') return { unit: 'in', factor: 1 / MM_PER_INCH };
  if (units === 'inch' && unit === 'mm/s') return { unit: 'in/min', factor: 60 / MM_PER_INCH };
  return { unit, factor: 1 };
}

function tracesOf(run: ReadRunFile, units: Units): ReportTrace[] {
  if (!run.trace) return [];
  const columns = readTrace(run.trace);
  const { arcState } = columns;
  const hz = run.trace.hz;
  const burning = (row: number) => !arcState || arcState[row] === TRANSFERRED;
  const rows = columns[run.trace.fields[0]].length;
  let first = 0;
  while (first < rows && !burning(first)) first++;
  let last = rows - 1;
  while (last > first && !burning(last)) last--;
  if (first >= rows) return [];
  const there = TRACES.filter(({ field }) => columns[field]).map((trace) => ({ ...trace, ends: trace.band(run) }));
  const wanted = [...there.filter(({ ends }) => ends), ...there.filter(({ ends }) => !ends)].slice(0, MOST_TRACES);
  return wanted.map(({ field, name, unit, ends }) => {
    const printed = printedIn(unit, units);
    const { factor } = printed;
    const values = columns[field]
      .slice(first, last + 1)
      .map((value, index) => (burning(first + index) ? value * factor : Number.NaN));
    const end = (value: number | null | undefined) => (value == null ? null : value * factor);
    return { name, unit: printed.unit, hz, fromS: first / hz, values, low: end(ends?.low), high: end(ends?.high) };
  });
}

/** The band that the measure was judged by, where the drill marks it and the run kept it. */
function bandOf(run: ReadRunFile, id: MeasureId): BandEnds | null {
  const band = run.score?.measures.find((measure) => measure.id === id)?.band;
  if (typeof band !== 'object' || band === null || !('low' in band) || !('high' in band)) return null;
  const end = (value: unknown) => (typeof value === 'number' ? value : null);
  return { low: end(band.low), high: end(band.high) };
}

/** Squareness is judged as distance from the lean that is intended; drawn is the lean itself. */
function workAngleBand(run: ReadRunFile): BandEnds | null {
  const off = bandOf(run, 'squareness')?.high ?? null;
  const { bevelDeg } = run.drill.intended;
  return off === null ? null : { low: bevelDeg - off, high: bevelDeg + off };
}

/** The signature and the name of the first chunk, which is IHDR in every PNG (W3C PNG, section 5.6); its length stands between. */
const PNG_SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const IHDR = [0x49, 0x48, 0x44, 0x52];
const PNG_HEAD_BYTES = 33;

function isPng(bytes: Uint8Array): boolean {
  const stands = (wanted: readonly number[], from: number) => wanted.every((value, index) => bytes[from + index] === value);
  return bytes.length >= PNG_HEAD_BYTES && stands(PNG_SIGNATURE, 0) && stands(IHDR, 12);
}

/** Width and height stand first in IHDR (W3C PNG, section 11.2.1). */
function isPrintableSize(png: Uint8Array): boolean {
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  return view.getUint32(16) * view.getUint32(20) <= MOST_PIXELS;
}
