import { execFileSync } from 'node:child_process';
import path from 'node:path';

/** Memory over an hour of simulated practice in one process, after collection. */
export interface HourOfPractice {
  runs: number;
  seconds: number;
  /** What is held, heap and buffers, MB: before, and each time all drills have been cut once more. */
  afterMb: number[];
}

export function hourOfPractice(): HourOfPractice {
  const child = path.join(import.meta.dirname, 'hour-child.ts');
  const flags = ['--expose-gc', '--disable-warning=ExperimentalWarning'];
  return JSON.parse(execFileSync(process.execPath, [...flags, child], { encoding: 'utf8' })) as HourOfPractice;
}
