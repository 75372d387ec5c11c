import { useState } from 'react';
import { FieldError, Label, NumberField } from 'react-aria-components';
import { say } from '../text/say.ts';
import { NumberInput } from '../ui/NumberInput.tsx';
import { Told } from '../ui/Told.tsx';
import { axisScale } from '../ui/units.ts';
import { useUnits } from '../ui/use-units.ts';
import { letGo } from './builder-store.ts';

export interface NumberEntryProps {
  label: string;
  /** Added to the label for those who do not see what it stands beside. */
  of?: string;
  value: number | null;
  /** Lengths and speeds are shown in the reader's measures; the drill keeps mm and m. */
  unit?: 'mm' | 'mm/s' | 'A' | 'deg' | 's' | 'm' | '';
  low: number;
  high: number;
  step?: number;
  /** Returns why the value cannot be taken, or null. */
  onChange(value: number): string | null;
  /** Where it may be left empty: called when it is. */
  onEmpty?(): string | null;
  isDisabled?: boolean;
}

/** One figure with its unit. */
export function NumberEntry({
  label,
  of,
  value,
  unit = '',
  low,
  high,
  step,
  onChange,
  onEmpty,
  isDisabled = false,
}: NumberEntryProps) {
  const { factor, unit: sign } = axisScale(unit, useUnits());
  const converted = factor !== 1;
  const [refusal, setRefusal] = useState<{ of: number | null; why: string } | null>(null);
  const why = refusal !== null && refusal.of === value ? refusal.why : null;
  const take = (shown: number) => {
    if (!Number.isFinite(shown)) {
      const empty = onEmpty ? onEmpty() : say('builder.field.empty');
      setRefusal(empty === null ? null : { of: value, why: empty });
      return;
    }
    // What only came back rounded from the field is not a change.
    if (value !== null && Math.abs(shown - value * factor) < 5e-4) return;
    const next = Math.min(high, Math.max(low, converted ? Math.round((shown / factor) * 1000) / 1000 : shown));
    const reason = onChange(next);
    setRefusal(reason === null ? null : { of: value, why: reason });
  };
  return (
    <NumberField
      className="entry entry-number"
      {...(of === undefined ? {} : { 'aria-label': of })}
      value={value === null ? Number.NaN : value * factor}
      minValue={low * factor}
      maxValue={high * factor}
      {...(step === undefined || converted ? {} : { step })}
      formatOptions={{ maximumFractionDigits: 3, useGrouping: false }}
      isInvalid={why !== null}
      isDisabled={isDisabled}
      onChange={take}
      onBlur={letGo}
    >
      <Label className="entry-label">{sign === '' ? label : say('builder.field.with-unit', { label, unit: sign })}</Label>
      <NumberInput className="entry-input figure" />
      <FieldError className="entry-wrong">{why !== null && <Told words={why} />}</FieldError>
    </NumberField>
  );
}
