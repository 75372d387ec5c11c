import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { RunningJob } from '../ui/RunningJob.tsx';
import { Told } from '../ui/Told.tsx';
import { useFocusHandedOn } from '../ui/use-focus-handed-on.ts';
import type { Trust } from './use-trust.ts';

const EMPTY_SHEET = 'M2 2h16v16H2zm2 2v12h12V4z';
const SHAPES: Record<Trust['state'], string> = {
  // Two sheets that cover each other; two that do not; a sheet of another make; a torn one; an empty one.
  same: 'M2 2h16v16H2zm3 6h10V6H5zm0 5h10v-2H5z',
  different: 'M2 2h16v16H2zm3 5h10V5H5zm0 6h4v-2H5zm7 2h3v-2h-3z',
  'other-core': 'M10 1l9 9-9 9-9-9zm-1 5v5h2V6zm0 6v2h2v-2z',
  damaged: 'M2 2h7l-2 5 3 3-3 3 2 5H2zm9 0h7v16h-7l-2-5 3-3-3-3z',
  unknown: EMPTY_SHEET,
  stopped: EMPTY_SHEET,
  checking: EMPTY_SHEET,
};

/** Whether the record is what was cut, as a shape, a word and a sentence; while that is found out, how far it is. */
export function TrustSign({ trust }: { trust: Trust }) {
  const { state, reason, done, total } = trust;
  return (
    <div className={`trust trust-${state}`} data-trust={state}>
      <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
        <path fill="currentColor" fillRule="evenodd" d={SHAPES[state]} />
      </svg>
      <div className="trust-words" tabIndex={-1}>
        <div role="status">
          <p className="trust-word">{say(`trust.${state}`)}</p>
          <p className="small">{say(`trust.${state}.means`)}</p>
          {reason !== null && (
            <p className="small">
              <Told words={reason} />
            </p>
          )}
        </div>
        {state === 'checking' && <RunningJob label={say('trust.progress')} done={done} total={total} onStop={trust.stop} />}
        {(state === 'stopped' || state === 'unknown') && <CheckAgain onPress={trust.again} />}
      </div>
    </div>
  );
}

function CheckAgain({ onPress }: { onPress(): void }) {
  const part = useFocusHandedOn<HTMLDivElement>();
  return (
    <div ref={part}>
      <Action onPress={onPress}>{say('trust.again')}</Action>
    </div>
  );
}
