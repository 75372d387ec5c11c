import { Button, type ButtonProps } from 'react-aria-components';

export interface ActionProps extends Omit<ButtonProps, 'className' | 'isPending'> {
  kind?: 'main' | 'plain' | 'quiet';
  className?: string;
  /** What was pressed is under way: no press counts, and the focus stays. A form that it sends has to see to that itself. */
  isWaiting?: boolean;
}

/** A button of the app: large enough to hit, and never told apart by colour alone. */
export function Action({ kind = 'plain', className = '', isWaiting = false, onPress, ...rest }: ActionProps) {
  const press = isWaiting ? { 'aria-disabled': true } : onPress && { onPress };
  return <Button {...rest} {...press} className={`action action-${kind} ${className}`.trim()} />;
}
