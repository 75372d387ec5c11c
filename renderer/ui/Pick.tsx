import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from 'react-aria-components';

export interface PickProps<T extends string> {
  label: string;
  /** The label is for screen readers only, as in a table under a heading that says it. */
  labelOutOfSight?: boolean;
  value: T;
  options: readonly { value: T; label: string }[];
  onChange(value: T): void;
}

/** One of many, out of a list that opens. */
export function Pick<T extends string>({ label, labelOutOfSight = false, value, options, onChange }: PickProps<T>) {
  return (
    <Select className="pick" value={value} onChange={(key) => key !== null && onChange(String(key) as T)}>
      <Label className={labelOutOfSight ? 'out-of-sight' : 'pick-label'}>{label}</Label>
      <Button className="action pick-button">
        <SelectValue />
        <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
          <path fill="currentColor" d="M4 7h12l-6 7z" />
        </svg>
      </Button>
      <Popover className="popover pick-popover">
        <ListBox className="pick-list">
          {options.map((option) => (
            <ListBoxItem key={option.value} id={option.value} className="pick-option" textValue={option.label}>
              {option.label}
            </ListBoxItem>
          ))}
        </ListBox>
      </Popover>
    </Select>
  );
}
