import {
  type Drill,
  type QualityPlace,
  type QualityStretch,
  RZ5_RANGES,
  rz5LimitUm,
  U_RANGES,
  uLimitMm,
} from '../../sim-core/index.ts';
import { UNCUT_MARK } from '../scene/level-paint.ts';
import type { TextKey } from '../text/en.ts';
import { say } from '../text/say.ts';
import { percentText } from '../ui/number-text.ts';
import { type QuantityUnit, quantity, type UnitSystem } from '../ui/units.ts';

export const QUALITY_FIGURES = ['squareness', 'drag', 'profile', 'dross', 'heat', 'uncut', 'groove-depth'] as const;
export type QualityFigureId = (typeof QUALITY_FIGURES)[number];

/** One figure of the cut as the map and its legend show it, in five levels. */
export interface QualityFigure {
  id: QualityFigureId;
  /** Level 1 to 5 of a place, the mark of uncut metal, or 0 where there is no metal. */
  levelOf(place: QualityPlace): number;
  /** Whether metal that is not cut through has a mark of its own. */
  marksUncut: boolean;
  /** What each level stands for, in words. */
  legend(units: UnitSystem): string[];
}

/** Upper bounds of levels 1 to 4. Design defaults, but where ISO 9013 has ranges. */
const DRAG_SHARES = [0.1, 0.2, 0.3, 0.45];
const DROSS_MM = [0, 0.3, 0.6, 1];
const HEAT_MM = [0.3, 0.6, 1.2, 2.5];
/** How far a groove's depth is off its band, as a share of the band's middle. */
const GROOVE_SHARES = [0, 0.1, 0.25, 0.5];

function levelBy(value: number | null, bounds: readonly number[]): number {
  if (value === null) return 0;
  const level = bounds.findIndex((bound) => value <= bound + 1e-9);
  return level < 0 ? bounds.length + 1 : level + 1;
}

function steps(bounds: readonly number[], unit: QuantityUnit, units: UnitSystem, factor = 1): string[] {
  const words = bounds.map((bound) => say('quality.up-to', { value: quantity(bound * factor, unit, units) }));
  return [...words, say('quality.over', { value: quantity((bounds.at(-1) ?? 0) * factor, unit, units) })];
}

function ranges(count: number, limit: (range: number) => number, unit: QuantityUnit, units: UnitSystem): string[] {
  const shown = Math.min(4, count);
  const words = Array.from({ length: shown }, (_, n) =>
    say('quality.range-up-to', { range: n + 1, value: quantity(limit(n + 1), unit, units) }),
  );
  const last = say(count > shown ? 'quality.range-and-beyond' : 'quality.beyond-range', { range: count > shown ? 5 : shown });
  return [...words, last];
}

/** The figures that mean something for a drill: a groove has a depth, a cut has faces. */
export function qualityFigures(drill: Drill): QualityFigure[] {
  const { thicknessMm } = drill.plate;
  const cutThicknessMm = thicknessMm / Math.cos((drill.intended.bevelDeg * Math.PI) / 180);
  const heat: QualityFigure = {
    id: 'heat',
    levelOf: (place) => (place.tick === 0 || place.state === 'no-metal' ? 0 : levelBy(place.heatAffectedMm, HEAT_MM)),
    marksUncut: false,
    legend: (units) => steps(HEAT_MM, 'fine-mm', units),
  };
  const band = drill.intended.grooveDepthMm;
  if (band !== null) {
    const middle = (band.low + band.high) / 2;
    const off = (depthMm: number): number => Math.max(band.low - depthMm, depthMm - band.high, 0) / middle;
    return [
      {
        id: 'groove-depth',
        levelOf: (place) => (place.state === 'no-metal' ? 0 : levelBy(off(place.depthMm), GROOVE_SHARES)),
        marksUncut: false,
        legend: () => [
          say('quality.groove-right'),
          ...GROOVE_SHARES.slice(1).map((share) => say('quality.groove-off', { share: percentText(share * 100) })),
          say('quality.groove-beyond', { share: percentText(50) }),
        ],
      },
      heat,
    ];
  }
  return [
    {
      id: 'squareness',
      levelOf: (place) => faceLevel(place, place.uMm === null ? 0 : (place.uRange ?? U_RANGES)),
      marksUncut: true,
      legend: (units) => ranges(U_RANGES, (range) => uLimitMm(range, cutThicknessMm), 'fine-mm', units),
    },
    {
      id: 'profile',
      levelOf: (place) => faceLevel(place, place.rz5Um === null ? 0 : (place.rz5Range ?? RZ5_RANGES + 1)),
      marksUncut: true,
      legend: (units) => ranges(RZ5_RANGES, (range) => rz5LimitUm(range, cutThicknessMm), 'um', units),
    },
    {
      id: 'drag',
      levelOf: (place) =>
        faceLevel(
          place,
          levelBy(
            place.dragMm,
            DRAG_SHARES.map((share) => share * thicknessMm),
          ),
        ),
      marksUncut: true,
      legend: (units) => steps(DRAG_SHARES, 'fine-mm', units, thicknessMm),
    },
    {
      id: 'dross',
      levelOf: (place) => (place.state === 'cut' || place.state === 'uncut' ? levelBy(place.dross.mm, DROSS_MM) : 0),
      marksUncut: false,
      legend: (units) => [say('quality.dross.none'), ...steps(DROSS_MM.slice(1), 'fine-mm', units)],
    },
    heat,
    {
      id: 'uncut',
      levelOf: (place) => uncutLevel(place, thicknessMm),
      marksUncut: false,
      legend: () => ([1, 2, 3, 4, 5] as const).map((level) => say(`quality.uncut.${level}`)),
    },
  ];
}

/** A face has a level; metal that is not cut through has no face, and is marked as that. */
function faceLevel(place: QualityPlace, level: number): number {
  return place.state === 'uncut' || place.state === 'untouched' ? UNCUT_MARK : level;
}

function uncutLevel(place: QualityPlace, thicknessMm: number): number {
  if (place.state === 'no-metal') return 0;
  if (place.state === 'cut') return 1;
  if (place.state === 'untouched') return 5;
  const share = place.depthMm / thicknessMm;
  return share > 0.8 ? 2 : share > 0.4 ? 3 : 4;
}

/** The kind of dross in words, with its height. */
export function drossWords({ dross }: Pick<QualityStretch, 'dross'>, units: UnitSystem): string {
  const key: TextKey = `quality.dross.${dross.kind}`;
  return dross.kind === 'none' ? say(key) : `${say(key)} ${quantity(dross.mm, 'fine-mm', units)}`;
}
