import {
  conditionOfDrill,
  type Drill,
  encodeRunFile,
  primeSpeedWindow,
  referenceHand,
  runFileOf,
  runHand,
  type SpeedWindow,
  verifyRunFile,
  windowOfDrill,
} from '../../sim-core/index.ts';
import type { FromCheck, ToCheck } from './check-messages.ts';

/** Seed of the reference hand's run: any will do, as long as it is always the same. */
const SEED = 1;

const scope = self as unknown as {
  postMessage(message: FromCheck): void;
  onmessage: ((event: MessageEvent<ToCheck>) => void) | null;
};

function windowFor(drill: Drill, known: SpeedWindow | null): SpeedWindow {
  const condition = conditionOfDrill(drill);
  if (condition && known) primeSpeedWindow(condition, known);
  return windowOfDrill(drill);
}

scope.onmessage = ({ data }) => {
  try {
    const window = windowFor(data.drill, data.known);
    if (data.kind === 'verify') {
      scope.postMessage({ kind: 'verified', verification: verifyRunFile(encodeRunFile(data.run)), window });
      return;
    }
    const run = runHand(data.drill, referenceHand(data.drill, window), SEED);
    scope.postMessage({ kind: 'reference', run: runFileOf(run, data.drillText, 'reference'), window });
  } catch (error) {
    scope.postMessage({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
};
