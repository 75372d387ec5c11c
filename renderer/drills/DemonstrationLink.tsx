import { useEffect, useState } from 'react';
import { callHost } from '../app/host-client.ts';
import { goTo } from '../app/route.ts';
import { tellTrouble } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

/** The way to the run that shows how this version of a drill is cut; nothing where there is none. */
export function DemonstrationLink({ drillHash }: { drillHash: string }) {
  const [runId, setRunId] = useState<string | null>(null);
  useEffect(() => {
    let wanted = true;
    callHost('getDemonstration', { hash: drillHash }).then(
      (shown) => wanted && setRunId(shown.runId),
      (error) => wanted && tellTrouble(error),
    );
    return () => {
      wanted = false;
    };
  }, [drillHash]);
  if (runId === null) return null;
  return <Action onPress={() => goTo({ at: 'review', runId })}>{say('card.demonstration')}</Action>;
}
