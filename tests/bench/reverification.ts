import { createCoreWorkers } from '../../electron/host/core-workers.ts';
import { encodeRunFile, referenceHand, runFileOf, runHand, windowOfDrill } from '../../sim-core/index.ts';
import { shippedDrills } from '../prove/random-run.ts';

/** Verifying run files as the host does, in its worker threads. */
export interface Reverification {
  runs: number;
  minutes: number;
  /** By the clock on the wall, s: the first time, when the workers still have to work out speeds of metals, and after that. */
  coldS: number;
  warmS: number;
  /** What a thousand minutes would take at the second rate, s. Runs of a minute cost less each minute: they are set up less often. */
  perThousandMinutesS: number;
}

/** The reference hand's run of every shipped drill, as files, verified three times over. */
export async function reverification(): Promise<Reverification> {
  let minutes = 0;
  const texts = shippedDrills().flatMap(({ drill, text }) => {
    const window = windowOfDrill(drill);
    if (window.windowLowMmPerS === null) return [];
    const script = referenceHand(drill, window);
    const run = runFileOf(runHand(drill, script, 1), text, script.name);
    minutes += run.digests.length / 60;
    return [encodeRunFile(run)];
  });
  const workers = createCoreWorkers();
  const verifyAll = async (): Promise<number> => {
    const began = performance.now();
    const found = await Promise.all(texts.map((text) => workers.run('verify', text)));
    const bad = found.find(({ verdict }) => verdict !== 'same');
    if (bad) throw new Error(`A run that was just made does not verify: ${bad.reason}`);
    return (performance.now() - began) / 1000;
  };
  try {
    const coldS = await verifyAll();
    // Each worker keeps its own speeds, and which worker gets which run is chance.
    await verifyAll();
    const warmS = await verifyAll();
    return { runs: texts.length, minutes, coldS, warmS, perThousandMinutesS: (warmS / minutes) * 1000 };
  } finally {
    await workers.close();
  }
}
