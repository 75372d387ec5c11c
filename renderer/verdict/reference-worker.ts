import { conditionOfDrill, primeSpeedWindow, referenceHand, runFileOf, runHand, windowOfDrill } from '../../sim-core/index.ts';
import type { FromReference, ToReference } from './reference-messages.ts';

/** Seed of the reference hand's run: any will do, as long as it is always the same. */
const SEED = 1;

const scope = self as unknown as {
  postMessage(message: FromReference): void;
  onmessage: ((event: MessageEvent<ToReference>) => void) | null;
};

scope.onmessage = ({ data: { drill, drillText, known } }) => {
  try {
    const condition = conditionOfDrill(drill);
    if (condition && known) primeSpeedWindow(condition, known);
    const window = windowOfDrill(drill);
    const run = runHand(drill, referenceHand(drill, window), SEED);
    scope.postMessage({ kind: 'cut', run: runFileOf(run, drillText, 'reference'), window });
  } catch (error) {
    scope.postMessage({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
};
