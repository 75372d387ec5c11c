import { useState } from 'react';
import { FieldError, Input, Label, TextArea, TextField } from 'react-aria-components';
import { Told } from '../ui/Told.tsx';
import { letGo } from './builder-store.ts';

export interface TextEntryProps {
  label: string;
  value: string;
  rows?: number;
  /** Returns why the text cannot be taken, or null; what was typed stays in sight either way. */
  onChange(text: string): string | null;
}

/** Words. A text that cannot be taken stays where it was typed, with the reason. */
export function TextEntry({ label, value, rows = 1, onChange }: TextEntryProps) {
  const [typed, setTyped] = useState<{ text: string; why: string | null } | null>(null);
  return (
    <TextField
      className="entry"
      value={typed?.text ?? value}
      isInvalid={typed?.why != null}
      onChange={(text) => setTyped({ text, why: onChange(text) })}
      onBlur={() => {
        letGo();
        if (typed?.why === null) setTyped(null);
      }}
    >
      <Label className="entry-label">{label}</Label>
      {rows === 1 ? <Input className="entry-input" /> : <TextArea className="entry-input" rows={rows} />}
      <FieldError className="entry-wrong">{typed?.why != null && <Told words={typed.why} />}</FieldError>
    </TextField>
  );
}
