import { useEffect, useState } from 'react';
import { callHost } from '../app/host-client.ts';
import { WorkAction } from '../app/WorkAction.tsx';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import { FocusedStatus } from '../ui/FocusedStatus.tsx';
import { Told } from '../ui/Told.tsx';

/** The way to hand an own run in for a verdict, where the host takes it; else why it does not. */
export function HandInPanel({ runId }: { runId: string }) {
  const [reason, setReason] = useState<string | null | undefined>(undefined);
  const [handedIn, setHandedIn] = useState(false);
  useEffect(() => {
    let wanted = true;
    callHost('checkHandIn', { runIds: [runId] }).then(
      ({ reasons }) => wanted && setReason(reasons[0]?.reason ?? null),
      // Somebody else's run: there is nothing to hand in, and nothing to say of it.
      () => undefined,
    );
    return () => {
      wanted = false;
    };
  }, [runId]);
  if (handedIn) return <FocusedStatus>{say('hand-in.waits')}</FocusedStatus>;
  if (reason === undefined) return null;
  if (reason !== null)
    return (
      <p className="small soft hand-in">
        <Told words={say('hand-in.not', { reason: inEnglish(reason) })} />
      </p>
    );
  return (
    <div className="hand-in">
      <WorkAction work={() => callHost('submitRun', { runId }).then(() => setHandedIn(true))}>{say('hand-in.do')}</WorkAction>
      <p className="small soft">{say('hand-in.about')}</p>
    </div>
  );
}
