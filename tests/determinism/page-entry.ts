import { markedRun } from './marked-run.ts';
import { mathSamples } from './math-samples.ts';
import { scriptedRuns } from './scripted-runs.ts';
import { stepThrough } from './step-through.ts';

/** What the test in the browser calls. */
const entry = {
  mathSamples,
  markedRun,
  trails: () => scriptedRuns().map((run) => ({ name: run.name, trail: stepThrough(run) })),
};

export type PageEntry = typeof entry;

Object.assign(globalThis, { determinism: entry });
