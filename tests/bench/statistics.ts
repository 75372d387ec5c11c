/** Of some measurements: the least, the middle one, the one that 99 in 100 stay under, and the greatest. */
export interface Spread {
  min: number;
  median: number;
  p99: number;
  max: number;
}

export function spreadOf(values: readonly number[]): Spread {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
  return { min: at(0), median: at(0.5), p99: at(0.99), max: at(1) };
}

/**
 * Processor time of this thread, ms: what other programs do on a busy machine does not count. It may tick in steps of some
 * milliseconds, so it is for long stretches only.
 */
export function threadMs(): number {
  const { user, system } = process.threadCpuUsage();
  return (user + system) / 1000;
}
