import { numberText, percentOf } from './number-text.ts';

/** The one place where a quantity becomes text. The core speaks mm, mm/s, degrees, volts and seconds; people may read inches. */
export type UnitSystem = 'metric' | 'inch';

/** Units that the core attaches to bands and evidence. */
export type QuantityUnit =
  | 'mm'
  | 'fine-mm'
  | 'um'
  | 'mm/s'
  | 'deg'
  | 'fine-deg'
  | 'V'
  | 'A'
  | 's'
  | 'bar'
  | 'm'
  | '%'
  | 'share'
  | '';

export const MM_PER_INCH = 25.4;
const MICRONS_PER_MIL = 25.4;
export const PSI_PER_BAR = 14.503774;
const FEET_PER_M = 3.28084;
const NO_FIGURE = '–';

export interface Figure {
  value: string;
  unit: string;
}

/** Digits that a trainee can act on: tenths below ten, whole numbers above. */
function speedDigits(value: number): number {
  return Math.abs(value) < 10 ? 1 : 0;
}

/** Splits a quantity into its printed number and unit. A figure that is not finite prints as a dash with no unit. */
export function figure(value: number | null | undefined, unit: QuantityUnit, system: UnitSystem): Figure {
  if (value === null || value === undefined || !Number.isFinite(value)) return { value: NO_FIGURE, unit: '' };
  switch (unit) {
    case 'mm': {
      if (system === 'inch') return { value: numberText(value / MM_PER_INCH, 3), unit: 'in' };
      return { value: numberText(value, Math.abs(value) < 20 ? 1 : 0), unit: 'mm' };
    }
    // Figures of a cut face: hundredths of a millimetre count.
    case 'fine-mm':
      return system === 'inch'
        ? { value: numberText(value / MM_PER_INCH, 3), unit: 'in' }
        : { value: numberText(value, 2), unit: 'mm' };
    case 'um':
      return system === 'inch'
        ? { value: numberText(value / MICRONS_PER_MIL, 1), unit: 'mil' }
        : { value: numberText(value, 0), unit: 'µm' };
    case 'mm/s': {
      if (system === 'inch') {
        const perMinute = (value * 60) / MM_PER_INCH;
        return { value: numberText(perMinute, speedDigits(perMinute)), unit: 'in/min' };
      }
      return { value: numberText(value, speedDigits(value)), unit: 'mm/s' };
    }
    case 'deg':
      return { value: numberText(value, 0), unit: '°' };
    case 'fine-deg':
      return { value: numberText(value, 1), unit: '°' };
    case 'V':
    case 'A':
      return { value: numberText(value, 0), unit };
    case 's':
      return { value: numberText(value, Math.abs(value) < 10 ? 1 : 0), unit: 's' };
    case 'bar':
      return system === 'inch'
        ? { value: numberText(value * PSI_PER_BAR, 0), unit: 'psi' }
        : { value: numberText(value, 1), unit };
    case 'm': {
      if (system === 'inch') return { value: numberText(value * FEET_PER_M, 0), unit: 'ft' };
      return { value: numberText(value, Number.isInteger(value) ? 0 : 1), unit };
    }
    case '%':
      return { value: numberText(value, 0), unit: '%' };
    case 'share':
      return { value: numberText(value * 100, 0), unit: '%' };
    default:
      return { value: numberText(value, 1), unit: '' };
  }
}

/** Number and unit as one string; degrees sit tight, per cent as the language has it, other units after a gap that does not break. */
export function quantity(value: number | null | undefined, unit: QuantityUnit, system: UnitSystem): string {
  const { value: printed, unit: symbol } = figure(value, unit, system);
  if (symbol === '') return printed;
  if (symbol === '%') return percentOf(printed);
  return symbol === '°' ? `${printed}°` : `${printed}\u00a0${symbol}`;
}

/** A plate thickness keeps its trade name: whole millimetres, or decimal inches. */
export function thickness(mm: number, system: UnitSystem): string {
  if (system === 'inch') return `${numberText(mm / MM_PER_INCH, 3)}\u00a0in`;
  return `${numberText(mm, Number.isInteger(mm) ? 0 : 1)}\u00a0mm`;
}

/** "15–30°", "11–23 mm/s", "±8°", or "≤ 1.0 mm" where one end is open. */
export function band(low: number | null, high: number | null, unit: QuantityUnit, system: UnitSystem): string {
  if (low === null) return `≤ ${quantity(high, unit, system)}`;
  if (high === null) return `≥ ${quantity(low, unit, system)}`;
  if (low === -high) return `±${quantity(high, unit, system)}`;
  const from = figure(low, unit, system);
  return `${from.value}–${quantity(high, unit, system)}`;
}

/** What a value of the core is multiplied by before it stands on an axis or in a field in the reader's units. */
export function axisScale(unit: QuantityUnit, system: UnitSystem): { factor: number; unit: string } {
  if (unit === 'mm' && system === 'inch') return { factor: 1 / MM_PER_INCH, unit: 'in' };
  if (unit === 'mm/s' && system === 'inch') return { factor: 60 / MM_PER_INCH, unit: 'in/min' };
  if (unit === 'm' && system === 'inch') return { factor: FEET_PER_M, unit: 'ft' };
  if (unit === 'share') return { factor: 100, unit: '%' };
  return { factor: 1, unit: unit === 'deg' ? '°' : unit };
}

/** A score as it is shown: whole, and never rounded up to a mark that it did not reach. */
export function scoreText(score: number): string {
  return numberText(Math.floor(score + 1e-9), 0);
}

/** The mark of a measure: rounded, unless that would lift it to the least mark that is asked for. */
export function markText(mark: number, mustReach: number | null): string {
  const rounded = Math.round(mark);
  return mustReach !== null && mark < mustReach && rounded >= mustReach ? scoreText(mark) : numberText(rounded, 0);
}

/** Marks that a stretch cost: tenths below one, whole above. */
export function lostText(marks: number): string {
  return marks < 0.95 ? numberText(Math.max(0.1, marks), 1) : numberText(marks, 0);
}

/** Run clock, "0:07.3". */
export function clock(seconds: number): string {
  const tenths = Math.max(0, Math.round(seconds * 10));
  const minutes = Math.floor(tenths / 600);
  const rest = (tenths - minutes * 600) / 10;
  return `${minutes}:${rest < 10 ? '0' : ''}${numberText(rest, 1)}`;
}
