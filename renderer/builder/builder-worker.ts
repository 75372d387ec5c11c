import {
  checkFeasibility,
  conditionOfDrill,
  type Drill,
  encodeRunFile,
  freshWear,
  PIERCE_METHODS,
  pierceCoupon,
  plateMassKg,
  primeSpeedWindow,
  referenceHand,
  runFileOf,
  runHand,
  type SpeedWindow,
  TICK_HZ,
  windowOfDrill,
} from '../../sim-core/index.ts';
import type { FromBuilderWorker, PierceFigures, ReferenceRun, ToBuilderWorker } from './builder-messages.ts';

/**
 * Where the core answers the builder. A question is answered bit by bit, the quick things first; whoever does not want the rest
 * any more ends the worker.
 */
const scope = self as unknown as {
  postMessage(message: FromBuilderWorker): void;
  onmessage: ((event: MessageEvent<ToBuilderWorker>) => void) | null;
};
const post = (message: FromBuilderWorker) => scope.postMessage(message);

/** The drawing alone is looked at with this one: any window does. */
const SOME_WINDOW: SpeedWindow = { windowLowMmPerS: 1, windowHighMmPerS: 2, losingSpeedMmPerS: 3, edgeDwellS: 0 };
const SEED = 1;
/** Longest pierce that is waited for, s. */
const LONGEST_PIERCE_S = 5;

function piercesOf(drill: Drill): Record<(typeof PIERCE_METHODS)[number], PierceFigures> | null {
  if (drill.rig.mode === 'gouge' || drill.rig.mode === 'mark') return null;
  const { plate, rig } = drill;
  const condition = { material: plate.material, thicknessMm: plate.thicknessMm, currentA: rig.currentA, rig: rig.class };
  const figures = PIERCE_METHODS.map((method) => {
    const { brokeThrough, timeS, blowbackDose } = pierceCoupon(condition, method, LONGEST_PIERCE_S);
    return [method, { throughS: brokeThrough ? timeS : null, thrownBackJ: blowbackDose / 1000 }] as const;
  });
  return Object.fromEntries(figures) as Record<(typeof PIERCE_METHODS)[number], PierceFigures>;
}

function referenceOf(drill: Drill, window: SpeedWindow): ReferenceRun {
  const run = runHand(drill, referenceHand(drill, window), SEED);
  const { simulation } = run;
  return {
    seconds: simulation.tick / TICK_HZ,
    score: run.score.score,
    passed: run.score.passed,
    use: {
      wearBefore: freshWear(),
      wearAfter: { ...simulation.wear },
      usage: { gasL: simulation.usage.gasL },
      plateKg: plateMassKg(simulation.setup),
      material: simulation.setup.material,
      minutes: simulation.tick / TICK_HZ / 60,
    },
  };
}

function answer(ask: number, drill: Drill, known: SpeedWindow | null): void {
  const drawing = checkFeasibility(drill, { window: SOME_WINDOW, skipPierce: true });
  post({ kind: 'drawing', ask, problems: drawing });
  const condition = conditionOfDrill(drill);
  if (condition && known) primeSpeedWindow(condition, known);
  const window = windowOfDrill(drill);
  post({ kind: 'window', ask, window });
  post({ kind: 'pierces', ask, pierces: piercesOf(drill) });
  const problems = drawing.length > 0 ? drawing : checkFeasibility(drill, { window });
  post({ kind: 'problems', ask, problems });
  if (problems.length > 0) {
    post({ kind: 'reference', ask, reference: null, reason: null });
    return;
  }
  try {
    post({ kind: 'reference', ask, reference: referenceOf(drill, window), reason: null });
  } catch (error) {
    // A line that takes longer than a run may last.
    if (!(error instanceof RangeError)) throw error;
    post({ kind: 'reference', ask, reference: null, reason: error.message });
  }
}

scope.onmessage = ({ data }) => {
  const { ask } = data;
  try {
    if (data.kind === 'answer') {
      answer(ask, data.drill, data.known);
      return;
    }
    const run = runHand(data.drill, referenceHand(data.drill, windowOfDrill(data.drill)), SEED);
    post({ kind: 'demonstration', ask, runText: encodeRunFile(runFileOf(run, data.text, 'reference')) });
  } catch (error) {
    post({ kind: 'failed', ask, message: error instanceof Error ? error.message : String(error) });
  }
};
