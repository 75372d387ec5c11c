import { execFileSync } from 'node:child_process';
import path from 'node:path';

/** Growth of the heap by `step`: bytes a tick between full seconds, and bytes at a full second, when changed tiles are kept. */
export interface Allocation {
  ticks: number;
  bytesPerTick: number;
  bytesPerFullSecond: number;
}

export function measureAllocation(): Allocation {
  const child = path.join(import.meta.dirname, 'allocation-child.ts');
  // A nursery that holds a whole second, so that nothing is collected unseen.
  const flags = ['--expose-gc', '--max-semi-space-size=64', '--min-semi-space-size=64', '--disable-warning=ExperimentalWarning'];
  return JSON.parse(execFileSync(process.execPath, [...flags, child], { encoding: 'utf8' })) as Allocation;
}
