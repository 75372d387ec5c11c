import { type ReactNode, useState } from 'react';
import { Action, type ActionProps } from '../ui/Action.tsx';
import { tellTrouble } from './yard-store.ts';

export interface WorkActionProps extends Omit<ActionProps, 'onPress' | 'isWaiting'> {
  /** What a press sets off. Until it is over the button waits and no press counts; what goes wrong is told on the page. */
  work(): Promise<unknown>;
  /** What the button says meanwhile, where that is something else. */
  meanwhile?: ReactNode;
}

/** A button for what takes a while and has no place of its own to tell how it goes. */
export function WorkAction({ work, meanwhile, children, ...rest }: WorkActionProps) {
  const [isWaiting, setIsWaiting] = useState(false);
  const press = () => {
    setIsWaiting(true);
    void work()
      .catch(tellTrouble)
      .finally(() => setIsWaiting(false));
  };
  return (
    <Action {...rest} isWaiting={isWaiting} onPress={press}>
      {isWaiting && meanwhile !== undefined ? meanwhile : children}
    </Action>
  );
}
