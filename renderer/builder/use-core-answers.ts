import { useEffect, useRef, useState } from 'react';
import { conditionOfDrill, type Drill, type ParseProblem, type PierceMethod, type SpeedWindow } from '../../sim-core/index.ts';
import { keepWindow, knownWindow } from '../drills/known-window.ts';
import type { FromBuilderWorker, PierceFigures, ReferenceRun, ToBuilderWorker } from './builder-messages.ts';

/** What the core has said of the drill so far; undefined = it is still at work on it. */
export interface CoreAnswers {
  drawing: ParseProblem[] | undefined;
  window: SpeedWindow | undefined;
  pierces: Record<PierceMethod, PierceFigures> | null | undefined;
  /** Everything that keeps the drill from being cut; empty = it can be. */
  problems: ParseProblem[] | undefined;
  reference: ReferenceRun | null | undefined;
  /** Why the reference hand could not be asked, one sentence. */
  reason: string | null;
  failed: string | null;
}

const NOTHING_YET: CoreAnswers = {
  drawing: undefined,
  window: undefined,
  pierces: undefined,
  problems: undefined,
  reference: undefined,
  reason: null,
  failed: null,
};

/** An edit is asked about once the hand has rested this long, ms. */
const REST_MS = 300;

export function openBuilderWorker(): Worker {
  return new Worker(new URL('./builder-worker.ts', import.meta.url), { type: 'module' });
}

/** Asks the core about a drill, anew with every edit; an answer that nobody waits for any more is given up. */
export function useCoreAnswers(drill: Drill): CoreAnswers {
  const [answers, setAnswers] = useState<{ of: Drill; answers: CoreAnswers }>({ of: drill, answers: NOTHING_YET });
  const worker = useRef<Worker | null>(null);
  const busy = useRef(false);
  const asked = useRef(0);

  useEffect(() => {
    let wanted = true;
    asked.current += 1;
    const ask = asked.current;
    const tell = (part: Partial<CoreAnswers>) =>
      setAnswers((now) => ({ of: drill, answers: { ...(now.of === drill ? now.answers : NOTHING_YET), ...part } }));
    const begin = async () => {
      const condition = conditionOfDrill(drill);
      const known = await knownWindow(condition);
      if (!wanted) return;
      if (busy.current) worker.current?.terminate();
      if (busy.current || worker.current === null) worker.current = openBuilderWorker();
      busy.current = true;
      worker.current.onmessage = ({ data }: MessageEvent<FromBuilderWorker>) => {
        if (data.ask !== ask || !wanted) return;
        const { kind, ask: _, ...part } = data;
        if (kind === 'window' && condition && known === null) keepWindow(condition, data.window);
        if (kind === 'reference' || kind === 'failed') busy.current = false;
        tell(kind === 'failed' ? { failed: data.message } : (part as Partial<CoreAnswers>));
      };
      worker.current.onerror = (event) => tell({ failed: event.message });
      worker.current.postMessage({ kind: 'answer', ask, drill, known } satisfies ToBuilderWorker);
    };
    const rest = setTimeout(() => void begin(), REST_MS);
    return () => {
      wanted = false;
      clearTimeout(rest);
    };
  }, [drill]);

  useEffect(
    () => () => {
      worker.current?.terminate();
      worker.current = null;
      busy.current = false;
    },
    [],
  );
  return answers.of === drill ? answers.answers : NOTHING_YET;
}

/** The reference hand's run on the drill of a text, as a run file. Rejects with one sentence where it cannot be made. */
export function demonstrationOf(drill: Drill, text: string): Promise<string> {
  const worker = openBuilderWorker();
  return new Promise<string>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<FromBuilderWorker>) => {
      if (data.kind === 'demonstration') resolve(data.runText);
      else if (data.kind === 'failed') reject(new Error(data.message));
    };
    worker.onerror = (event) => reject(new Error(event.message));
    worker.postMessage({ kind: 'demonstrate', ask: 0, drill, text } satisfies ToBuilderWorker);
  }).finally(() => worker.terminate());
}
