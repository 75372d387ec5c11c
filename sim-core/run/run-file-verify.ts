import { decodeRunFile, type ReadRunFile } from './run-file.ts';
import { type Resimulated, resimulate } from './run-file-resimulate.ts';
import { storeTrace } from './run-file-trace.ts';
import { CORE_VERSION } from './types.ts';

/**
 * same: cut again from its inputs, the run comes out as it is kept, state for state and mark for mark.
 * different: it does not. other-core: made by another physics or a newer program, so it cannot be judged here.
 * damaged: not byte for byte what was written, or no run file at all.
 */
export type Verdict = 'same' | 'different' | 'other-core' | 'damaged';

export interface Verification {
  verdict: Verdict;
  /** One sentence: what was found, and where. */
  reason: string;
}

/**
 * Checks a run file by cutting it again. Takes about a hundredth of the run's own time.
 * @param onSecond as `resimulate` has it
 */
export function verifyRunFile(text: string, onSecond?: (ticks: number) => void): Verification {
  const read = decodeRunFile(text);
  if (!read.ok) {
    const { path, sentence } = read.problems[0];
    return {
      verdict: read.why === 'newer' ? 'other-core' : 'damaged',
      reason: path === '$' ? sentence : `At ${path}: ${sentence}`,
    };
  }
  const { run } = read;
  if (run.coreVersion !== CORE_VERSION) {
    return { verdict: 'other-core', reason: `The run was made by core ${run.coreVersion}; this is core ${CORE_VERSION}.` };
  }
  try {
    return compare(run, resimulate(run.drill, run.seed, run.log, run, onSecond));
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { verdict: 'different', reason: error.message };
  }
}

function compare(run: ReadRunFile, again: Resimulated): Verification {
  if (!run.finished) {
    return run.digests.length === 0 && run.finalDigest === null && run.score === null && run.trace === null
      ? { verdict: 'same', reason: 'The run was not finished: its inputs are whole, and it holds no result to compare.' }
      : { verdict: 'different', reason: 'The run says that it was not finished and yet holds results.' };
  }
  for (const [second, digest] of again.digests.entries()) {
    if (run.digests[second] !== digest) return different(`the state after second ${second + 1}`);
  }
  if (run.digests.length !== again.digests.length) return different('the number of seconds');
  if (run.finalDigest !== again.finalDigest) return different('the state at the end');
  if (!sameJson(run.score, again.score)) return different('the score');
  if (!sameJson(run.trace, storeTrace(again.samples))) return different('the trace');
  return { verdict: 'same', reason: 'Cut again from its inputs, the run comes out the same.' };
}

function different(what: string): Verification {
  return { verdict: 'different', reason: `Cut again from its inputs, the run comes out different: first in ${what}.` };
}

/** Equal as JSON, whatever the order of the fields. */
export function sameJson(a: unknown, b: unknown): boolean {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === b;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length) return false;
  return keys.every(
    (key) => Object.hasOwn(b, key) && sameJson((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
  );
}
