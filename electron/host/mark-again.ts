import type { Diagnosis, RigChoices } from '../../sim-core/index.ts';
import { decodeHandLog, type Resimulated, resimulate, storeTrace } from '../../sim-core/index.ts';
import { readDrillText } from './drill-text.ts';
import { HostError } from './host-error.ts';

/** Inputs of a run and what it was cut under. */
export interface RunToMark {
  drillText: string;
  seed: number;
  /** An encoded hand log. */
  inputs: Uint8Array;
  choices: RigChoices | null;
  diagnosis: Diagnosis | null;
}

export interface MarkedRun extends Pick<Resimulated, 'digests' | 'finalDigest' | 'score'> {
  trace: ReturnType<typeof storeTrace>;
}

/**
 * Cuts a run again from its inputs and marks it by its whole drill: the marks of an assessment never come from the page, which
 * does not get to see what counts how much. Takes about a hundredth of the run's own time, and seconds for a new metal.
 */
export function markAgain(
  { drillText, seed, inputs, choices, diagnosis }: RunToMark,
  onSecond?: (ticks: number) => void,
): MarkedRun {
  const { drill } = readDrillText(drillText);
  try {
    const { digests, finalDigest, score, samples } = resimulate(
      drill,
      seed,
      decodeHandLog(inputs),
      { choices, diagnosis },
      onSecond,
    );
    return { digests, finalDigest, score, trace: storeTrace(samples) };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new HostError('conflict', `This run cannot be cut again and is not marked: ${error.message}`, { cause: error });
  }
}
