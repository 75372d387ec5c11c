import { useEffect, useState } from 'react';
import type { Reply } from '../../electron/contract.ts';
import { errorWords } from '../app/error-words.ts';
import { callHost } from '../app/host-client.ts';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Told } from '../ui/Told.tsx';

type Chain = Reply<'checkLedger'>;

// Links that hold; links of which one is open; one that is still looked at.
const SHAPES = {
  whole: 'M1 3h11v10H1zM3.4 5.4v5.2h6.2V5.4zM8 7h11v10H8zM10.4 9.4v5.2h6.2V9.4z',
  broken: 'M1 2h10v9H1zM3.4 4.4v4.2h5.2V4.4zM13 9h6v9H9v-5h2.4v2.6h5.2v-4.2H13z',
  checking: 'M1 3h11v10H1zM3.4 5.4v5.2h6.2V5.4z',
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
      (error: unknown) => wanted && setProblem(errorWords(error)),
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
        <path fill="currentColor" d={SHAPES[state]} />
      </svg>
      <div role="status">
        <p className="trust-word">{say(`chain.${state}`)}</p>
        {problem !== null && (
          <p>
            <Told words={problem} />
          </p>
        )}
        {chain && (
          <p>
            <Told words={inEnglish(chain.sentence)} />{' '}
            {!chain.ok && say(chain.firstWrong === null ? 'chain.broken.end' : 'chain.broken.from')}
          </p>
        )}
        {chain?.ok && <p className="small soft">{say('chain.whole.means')}</p>}
      </div>
      <Action
        className="not-printed"
        isWaiting={chain === null && problem === null}
        onPress={() => setAsked((before) => before + 1)}
      >
        {say('chain.again')}
      </Action>
    </div>
  );
}
