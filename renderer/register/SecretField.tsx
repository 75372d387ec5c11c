import { FieldError, Input, Label, TextField } from 'react-aria-components';

export interface SecretFieldProps {
  label: string;
  value: string;
  /** What the browser may offer: the passphrase that is known, or none. */
  known: boolean;
  /** One sentence; null while all is well. */
  problem?: string | null;
  autoFocus?: boolean;
  onChange(value: string): void;
}

/** A passphrase, typed out of sight. */
export function SecretField({ label, value, known, problem = null, autoFocus = false, onChange }: SecretFieldProps) {
  return (
    <TextField
      className="entry"
      type="password"
      value={value}
      onChange={onChange}
      isInvalid={problem !== null}
      validationBehavior="aria"
      maxLength={200}
      autoFocus={autoFocus}
      autoComplete={known ? 'current-password' : 'new-password'}
    >
      <Label>{label}</Label>
      <Input className="price-input" />
      <FieldError className="entry-problem">{problem}</FieldError>
    </TextField>
  );
}
