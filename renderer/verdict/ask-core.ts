import { conditionOfDrill } from '../../sim-core/index.ts';
import { keepWindow, knownWindow } from '../drills/known-window.ts';
import type { FromCheck, ToCheck } from './check-messages.ts';

type Asked = ToCheck extends infer T ? (T extends { known: unknown } ? Omit<T, 'known'> : never) : never;

export interface CoreQuestion<T> {
  answer: Promise<T>;
  /** Ends the worker; the answer never comes. */
  cancel(): void;
}

/** Has the core answer away from the page's thread, with the speed window that is known already if there is one. */
export function askCore<K extends FromCheck['kind']>(question: Asked, kind: K): CoreQuestion<Extract<FromCheck, { kind: K }>> {
  const worker = new Worker(new URL('./check-worker.ts', import.meta.url), { type: 'module' });
  const condition = conditionOfDrill(question.drill);
  const answer = new Promise<Extract<FromCheck, { kind: K }>>((resolve, reject) => {
    worker.onerror = (event) => reject(new Error(event.message));
    void knownWindow(condition).then((known) => {
      worker.onmessage = ({ data }: MessageEvent<FromCheck>) => {
        worker.terminate();
        if (data.kind === 'failed') reject(new Error(data.message));
        else {
          if (known === null && condition) keepWindow(condition, data.window);
          if (data.kind === kind) resolve(data as Extract<FromCheck, { kind: K }>);
        }
      };
      worker.postMessage({ ...question, known } as ToCheck);
    });
  });
  return { answer, cancel: () => worker.terminate() };
}
