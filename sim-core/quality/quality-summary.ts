import type { Dross, DrossKind } from './dross.ts';
import { DROSS_KINDS } from './dross.ts';
import { rz5RangeOf, uRangeOf } from './iso-9013.ts';
import type { QualityPlace } from './kerf-quality.ts';
import { QUALITY } from './quality-constants.ts';

/** Cut quality over a stretch of the line: means over its cut places, null where none of them has a figure. */
export interface QualityStretch {
  fromMm: number;
  toMm: number;
  topWidthMm: number | null;
  bottomWidthMm: number | null;
  depthMm: number | null;
  uMm: number | null;
  uRange: number | null;
  dragMm: number | null;
  rz5Um: number | null;
  rz5Range: number | null;
  /** The kind that lies along most of it, with its greatest height. */
  dross: Dross;
  heatAffectedMm: number | null;
  /** Length of metal that is not cut through, mm: uncut and untouched. */
  uncutMm: number;
  /** Length of line that runs over metal, mm. */
  metalMm: number;
  /** First tick, counted from 1, at which the arc was in it; 0 = never. */
  tick: number;
}

/** What is wrong with the start or the end of a cut: metal left standing, a kerf opened wide, or nothing. */
export interface EndDefect {
  kind: 'none' | 'uncut' | 'wide';
  /** Length left uncut, or width beyond that of the middle of the cut, mm. */
  mm: number;
}

/** From and to along the line, mm. */
export interface UncutSpot {
  fromMm: number;
  toMm: number;
}

export interface QualitySummary extends QualityStretch {
  /** Greatest figures along the line; null where there is none. */
  worst: { uMm: number | null; dragMm: number | null; rz5Um: number | null; drossMm: number; heatAffectedMm: number | null };
  start: EndDefect;
  end: EndDefect;
  /** Unbroken stretches of metal that is not cut through, in the order of the line. */
  uncutSpots: UncutSpot[];
}

export function summariseQuality(places: readonly QualityPlace[], placeMm: number, cutThicknessMm: number): QualitySummary {
  const whole = stretchQuality(places, 0, places.length, placeMm, cutThicknessMm);
  const metal = places.filter((place) => place.state !== 'no-metal');
  return {
    ...whole,
    worst: {
      uMm: greatest(places, (place) => place.uMm),
      dragMm: greatest(places, (place) => place.dragMm),
      rz5Um: greatest(places, (place) => place.rz5Um),
      drossMm: greatest(places, (place) => place.dross.mm) ?? 0,
      heatAffectedMm: greatest(metal, (place) => (place.tick > 0 ? place.heatAffectedMm : null)),
    },
    start: endDefect(metal, placeMm),
    end: endDefect([...metal].reverse(), placeMm),
    uncutSpots: uncutSpots(places, placeMm),
  };
}

/** The line in rows of about so many mm, the last one longer rather than very short. */
export function qualityRows(places: readonly QualityPlace[], everyMm: number, cutThicknessMm: number): QualityStretch[] {
  const first = places[0];
  if (!first) return [];
  const placeMm = 2 * first.sMm;
  const perRow = everyMm / placeMm < 1 ? 1 : (everyMm / placeMm + 0.5) | 0;
  const rows: QualityStretch[] = [];
  for (let from = 0; from < places.length; ) {
    const rest = places.length - from;
    const to = rest < 1.5 * perRow ? places.length : from + perRow;
    rows.push(stretchQuality(places, from, to, placeMm, cutThicknessMm));
    from = to;
  }
  return rows;
}

/** Places `from` to before `to` as one. */
export function stretchQuality(
  places: readonly QualityPlace[],
  from: number,
  to: number,
  placeMm: number,
  cutThicknessMm: number,
): QualityStretch {
  const inside = places.slice(from, to);
  const touched = inside.filter((place) => place.state === 'cut' || place.state === 'uncut');
  const mean = (figure: (place: QualityPlace) => number | null): number | null => meanFigure(touched, figure);
  const uMm = mean((place) => place.uMm);
  const rz5Um = mean((place) => place.rz5Um);
  return {
    fromMm: from * placeMm,
    toMm: to * placeMm,
    topWidthMm: mean((place) => place.topWidthMm),
    bottomWidthMm: mean((place) => place.bottomWidthMm),
    depthMm: mean((place) => place.depthMm),
    uMm,
    uRange: uMm === null ? null : uRangeOf(uMm, cutThicknessMm),
    dragMm: mean((place) => place.dragMm),
    rz5Um,
    rz5Range: rz5Um === null ? null : rz5RangeOf(rz5Um, cutThicknessMm),
    dross: mainDross(touched),
    heatAffectedMm: mean((place) => place.heatAffectedMm),
    uncutMm: inside.filter((place) => place.state === 'uncut' || place.state === 'untouched').length * placeMm,
    metalMm: inside.filter((place) => place.state !== 'no-metal').length * placeMm,
    tick: firstTick(inside),
  };
}

function firstTick(places: readonly QualityPlace[]): number {
  let first = 0;
  for (const { tick } of places) if (tick > 0 && (first === 0 || tick < first)) first = tick;
  return first;
}

function meanFigure(places: readonly QualityPlace[], figure: (place: QualityPlace) => number | null): number | null {
  let sum = 0;
  let count = 0;
  for (const place of places) {
    const value = figure(place);
    if (value === null) continue;
    sum += value;
    count++;
  }
  return count === 0 ? null : sum / count;
}

function greatest(places: readonly QualityPlace[], figure: (place: QualityPlace) => number | null): number | null {
  let most: number | null = null;
  for (const place of places) {
    const value = figure(place);
    if (value !== null && (most === null || value > most)) most = value;
  }
  return most;
}

/** What lies along most of the places, where that is at least a quarter of them; else none. */
function mainDross(places: readonly QualityPlace[]): Dross {
  let main: DrossKind = 'none';
  let most = 0;
  for (const kind of DROSS_KINDS) {
    const count = places.filter((place) => place.dross.kind === kind).length;
    if (kind === 'none' || count <= most || count * 4 < places.length) continue;
    main = kind;
    most = count;
  }
  return { kind: main, mm: greatest(places, (place) => (place.dross.kind === main ? place.dross.mm : null)) ?? 0 };
}

function uncutSpots(places: readonly QualityPlace[], placeMm: number): UncutSpot[] {
  const spots: UncutSpot[] = [];
  for (const [index, { state }] of places.entries()) {
    if (state !== 'uncut' && state !== 'untouched') continue;
    const last = spots.at(-1);
    const before = places[index - 1]?.state;
    if (last && (before === 'uncut' || before === 'untouched')) last.toMm = (index + 1) * placeMm;
    else spots.push({ fromMm: index * placeMm, toMm: (index + 1) * placeMm });
  }
  return spots;
}

/** What is wrong with the first end of these places, all of them metal. */
function endDefect(metal: readonly QualityPlace[], placeMm: number): EndDefect {
  let uncut = 0;
  while (uncut < metal.length && metal[uncut]!.state !== 'cut') uncut++;
  if (uncut > 0) return { kind: 'uncut', mm: uncut * placeMm };
  const widths = metal.flatMap((place) => place.topWidthMm ?? []).sort((a, b) => a - b);
  const middle = widths[(widths.length / 2) | 0];
  const atEnd = greatest(metal.slice(0, QUALITY.endReachMm / placeMm), (place) => place.topWidthMm);
  if (middle === undefined || atEnd === null || atEnd - middle < QUALITY.wideByMm) return { kind: 'none', mm: 0 };
  return { kind: 'wide', mm: atEnd - middle };
}
