import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { riseAt, thickPlateField, thickPlateProbes } from '../reference/moving-source.ts';
import { spreadOf, threadMs } from './statistics.ts';

/** Seconds of processor time, and the error of the rise against the closed form as shares: the middle one, and the greatest. */
export interface PlateResult {
  seconds: number;
  medianError: number;
  greatestError: number;
}

export type FiniteElementComparison =
  | { skipped: string }
  | { core: PlateResult; finiteElements: (PlateResult & { steps: number })[]; probes: number };

/** Steps of time that the finite elements take: fewer are quicker and worse. */
const STEPS = [60, 240];
const ROUNDS = 5;
/** Where Debian's package keeps its plug-ins; the program itself looks elsewhere. */
const PLUGINS = '/usr/lib/freefem++';

function errorsOf(riseAtProbe: (probe: ReturnType<typeof thickPlateProbes>[number]) => number): Omit<PlateResult, 'seconds'> {
  const { median, max } = spreadOf(thickPlateProbes().map((probe) => Math.abs(riseAtProbe(probe) - probe.exactK) / probe.exactK));
  return { medianError: median, greatestError: max };
}

function core(): PlateResult {
  const times: number[] = [];
  let field = thickPlateField();
  for (let n = 0; n < ROUNDS; n++) {
    const began = threadMs();
    field = thickPlateField();
    times.push((threadMs() - began) / 1000);
  }
  return { seconds: spreadOf(times).median, ...errorsOf(({ ix, iy, k }) => riseAt(field, ix, iy, k)) };
}

function finiteElements(steps: number): PlateResult & { steps: number } {
  const script = path.join(import.meta.dirname, 'thick-plate.edp');
  const printed = execFileSync('FreeFem++', ['-nw', '-v', '0', script, String(steps)], {
    encoding: 'utf8',
    env: { ...process.env, ...(existsSync(PLUGINS) ? { FF_LOADPATH: PLUGINS } : {}) },
    maxBuffer: 16 * 1024 * 1024,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const { seconds, rises } = JSON.parse(printed) as { seconds: number; rises: number[] };
  return { seconds, steps, ...errorsOf(({ number }) => rises[number] ?? Number.NaN) };
}

/** The same plate by the core's conduction and by a general program for finite elements, with elements as large as the cells. */
export function compareWithFiniteElements(): FiniteElementComparison {
  try {
    return { core: core(), finiteElements: STEPS.map(finiteElements), probes: thickPlateProbes().length };
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return { skipped: 'FreeFEM is not on this machine (FreeFem++).' };
    throw error;
  }
}
