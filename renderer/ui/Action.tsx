import { Button, type ButtonProps } from 'react-aria-components';

export interface ActionProps extends Omit<ButtonProps, 'className'> {
  kind?: 'main' | 'plain' | 'quiet';
  className?: string;
}

/** A button of the app: large enough to hit, and never told apart by colour alone. */
export function Action({ kind = 'plain', className = '', ...rest }: ActionProps) {
  return <Button {...rest} className={`action action-${kind} ${className}`.trim()} />;
}
