import { type FocusEvent, useState } from 'react';
import { Button, type ButtonProps } from 'react-aria-components';

export interface ActionProps extends Omit<ButtonProps, 'className' | 'isPending' | 'onFocus' | 'onBlur'> {
  kind?: 'main' | 'plain' | 'quiet';
  className?: string;
  /** What was pressed, or has to be known first, is under way: no press counts, and the button is reached and keeps the focus. */
  isWaiting?: boolean;
}

/**
 * A button of the app: large enough to hit, and never told apart by colour alone. A browser takes the focus from a button that is
 * disabled: where one has it, by its own press as a rule, it is disabled for good only once the focus has gone on.
 */
export function Action({ kind = 'plain', className = '', isWaiting = false, isDisabled = false, ...rest }: ActionProps) {
  const [hasFocus, setHasFocus] = useState(false);
  const isHeld = isWaiting || (isDisabled && hasFocus);
  // A window that is left takes the focus from nothing in it.
  const leave = ({ target }: FocusEvent) => setHasFocus(target.ownerDocument.activeElement === target);
  return (
    <Button
      {...rest}
      {...(isHeld && { 'aria-disabled': true, type: 'button', onPress: undefined })}
      isDisabled={isDisabled && !isHeld}
      onFocus={() => setHasFocus(true)}
      onBlur={leave}
      className={`action action-${kind} ${className}`.trim()}
    />
  );
}
