import { Label, Text, TextArea, TextField } from 'react-aria-components';

/** Most characters of a reason or a note, as the host takes them. */
const WRITTEN_LETTERS = 2000;

export interface WrittenFieldProps {
  label: string;
  value: string;
  rows?: number;
  about?: string;
  most?: number;
  onChange(value: string): void;
}

/** A few sentences, written by hand. */
export function WrittenField({ label, value, rows = 3, about, most = WRITTEN_LETTERS, onChange }: WrittenFieldProps) {
  return (
    <TextField className="entry" value={value} onChange={onChange} maxLength={most}>
      <Label>{label}</Label>
      <TextArea className="price-input written" rows={rows} />
      {about !== undefined && (
        <Text slot="description" className="soft small">
          {about}
        </Text>
      )}
    </TextField>
  );
}
