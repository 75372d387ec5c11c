import { useState } from 'react';
import { tellTrouble } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { useFocusHandedOn } from '../ui/use-focus-handed-on.ts';

export interface OlderRunsProps {
  shown: number;
  all: number;
  onFetch(): Promise<void>;
}

/**
 * How many runs of all are listed, and the way to more. It goes away when the last ones have come, and stands inside an element with
 * `tabIndex={-1}`, which takes the focus over then.
 */
export function OlderRuns({ shown, all, onFetch }: OlderRunsProps) {
  const [fetching, setFetching] = useState(false);
  const line = useFocusHandedOn<HTMLParagraphElement>();
  const fetchOlder = () => {
    setFetching(true);
    void onFetch()
      .catch(tellTrouble)
      .finally(() => setFetching(false));
  };
  return (
    <p className="row-actions" ref={line}>
      <span className="soft small">{say('run.shown', { shown, all })}</span>
      <Action isWaiting={fetching} onPress={fetchOlder}>
        {say('run.older')}
      </Action>
    </p>
  );
}
