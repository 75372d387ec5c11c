import { say } from '../text/say.ts';
import { NumberEntry, type NumberEntryProps } from './NumberEntry.tsx';

export interface BandEntryProps extends Pick<NumberEntryProps, 'unit' | 'low' | 'high'> {
  label: string;
  value: { low: number; high: number };
  onChange(value: { low: number; high: number }): string | null;
}

/** From and to. */
export function BandEntry({ label, value, onChange, ...rest }: BandEntryProps) {
  return (
    <fieldset className="entry-group">
      <legend className="entry-label">{label}</legend>
      <div className="entry-row">
        <NumberEntry
          {...rest}
          label={say('builder.band.from')}
          value={value.low}
          onChange={(low) => onChange({ ...value, low })}
        />
        <NumberEntry
          {...rest}
          label={say('builder.band.to')}
          value={value.high}
          onChange={(high) => onChange({ ...value, high })}
        />
      </div>
    </fieldset>
  );
}
