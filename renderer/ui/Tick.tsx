import { Checkbox, type CheckboxProps } from 'react-aria-components';

export interface TickProps extends Omit<CheckboxProps, 'className' | 'children'> {
  label: string;
}

/** One thing done or not done: a box that shows it as a drawn stroke, with its words beside it. */
export function Tick({ label, ...rest }: TickProps) {
  return (
    <Checkbox {...rest} className="tick">
      <svg className="tick-box" viewBox="0 0 20 20" aria-hidden="true" focusable="false">
        <rect x={1.5} y={1.5} width={17} height={17} />
        <path d="M4.5 10.5l4 4 7.5-9" />
      </svg>
      {label}
    </Checkbox>
  );
}
