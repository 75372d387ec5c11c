import { parseDrill, referenceHand, runHand, windowOfDrill } from '../../sim-core/index.ts';

/** A drill cut by the reference hand and marked: digests and marks, as plain JSON that can be compared between engines. */
export function markedRun(drillText: string, seed: number) {
  const parsed = parseDrill(drillText);
  if (!parsed.ok) throw new Error(parsed.problems.map((problem) => JSON.stringify(problem)).join(' '));
  const window = windowOfDrill(parsed.value);
  const { digests, finalDigest, score } = runHand(parsed.value, referenceHand(parsed.value, window), seed);
  return { window, digests, finalDigest, score };
}
