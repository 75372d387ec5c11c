import { conditionOfDrill, type RunFile } from '../../sim-core/index.ts';
import { keepWindow, knownWindow } from '../drills/known-window.ts';
import { drillFromText } from '../drills/read-drill.ts';
import type { FromReference, ToReference } from './reference-messages.ts';

export interface CutReference {
  answer: Promise<RunFile>;
  /** Ends the worker; the answer never comes. */
  cancel(): void;
}

/** Has the reference hand cut a drill, away from the page's thread. */
export function cutReference(drillText: string): CutReference {
  const worker = new Worker(new URL('./reference-worker.ts', import.meta.url), { type: 'module' });
  const drill = drillFromText(drillText);
  const condition = conditionOfDrill(drill);
  const answer = new Promise<RunFile>((resolve, reject) => {
    worker.onerror = (event) => reject(new Error(event.message));
    void knownWindow(condition).then((known) => {
      worker.onmessage = ({ data }: MessageEvent<FromReference>) => {
        worker.terminate();
        if (data.kind === 'failed') {
          reject(new Error(data.message));
          return;
        }
        if (known === null && condition) keepWindow(condition, data.window);
        resolve(data.run);
      };
      worker.postMessage({ drill, drillText, known } satisfies ToReference);
    });
  });
  return { answer, cancel: () => worker.terminate() };
}
