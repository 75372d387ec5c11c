import { Label, Radio, RadioGroup } from 'react-aria-components';

export interface ChoiceProps<T extends string> {
  label: string;
  value: T;
  /** `language` where a label is in another than the page. */
  options: readonly { value: T; label: string; language?: string }[];
  onChange(value: T): void;
}

/** One of a few, all of them in sight. */
export function Choice<T extends string>({ label, value, options, onChange }: ChoiceProps<T>) {
  return (
    <RadioGroup className="choice" value={value} onChange={(next) => onChange(next as T)} orientation="horizontal">
      <Label className="choice-label">{label}</Label>
      <div className="choice-row">
        {options.map((option) => (
          <Radio key={option.value} value={option.value} className="choice-option" lang={option.language}>
            {option.label}
          </Radio>
        ))}
      </div>
    </RadioGroup>
  );
}
