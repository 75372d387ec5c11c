import { useEffect, useState } from 'react';
import type { Reply } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

type Chain = Reply<'checkLedger'>;

// Links that hold; links of which one is open; one that is still looked at.
const SHAPES = {
  whole: 'M1 6h8v8H1zm2 2v4h4V8zm8-2h8v8h-8zm2 2v4h4V8zM6 9h8v2H6z',
  broken: 'M1 6h8v2H3v4h4v2H1zm10 0h8v8h-6v-2h4V8h-6zM8.6 9l2.8 2-2.8 3z',
  checking: 'M1 6h8v8H1zm2 2v4h4V8zm8-2h8v8h-8zm2 2v4h4V8z',
} as const;

export interface ChainSignProps {
  /** Changes when the chain is to be looked at again. */
  entries: number;
  onFound(chain: Chain | null): void;
}

/** Whether every entry of the record still follows on the one before: a shape, a word, a sentence. */
export function ChainSign({ entries, onFound }: ChainSignProps) {
  const [chain, setChain] = useState<Chain | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [asked, setAsked] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: looked at again when asked, and when there is more to look at
  useEffect(() => {
    let wanted = true;
    setChain(null);
    setProblem(null);
    callHost('checkLedger', {}).then(
      (found) => {
        if (!wanted) return;
        setChain(found);
        onFound(found);
      },
      (error: unknown) => wanted && setProblem(error instanceof Error ? error.message : String(error)),
    );
    return () => {
      wanted = false;
    };
  }, [asked, entries, onFound]);
  const state = chain === null ? 'checking' : chain.ok ? 'whole' : 'broken';
  return (
    <div
      className={`trust chain ${state === 'whole' ? 'trust-same' : state === 'broken' ? 'trust-different' : ''}`}
      data-chain={state}
    >
      <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
        <path fill="currentColor" fillRule="evenodd" d={SHAPES[state]} />
      </svg>
      <div role="status">
        <p className="trust-word">{say(`chain.${state}`)}</p>
        {problem !== null && <p>{problem}</p>}
        {chain && (
          <p>
            {chain.sentence} {!chain.ok && say(chain.firstWrong === null ? 'chain.broken.end' : 'chain.broken.from')}
          </p>
        )}
        {chain?.ok && <p className="small soft">{say('chain.whole.means')}</p>}
      </div>
      <Action
        className="not-printed"
        isDisabled={chain === null && problem === null}
        onPress={() => setAsked((before) => before + 1)}
      >
        {say('chain.again')}
      </Action>
    </div>
  );
}
