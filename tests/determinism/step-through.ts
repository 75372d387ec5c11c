import { createSimulation, SAMPLE_FIELDS, type Simulation, TICK_HZ } from '../../sim-core/index.ts';
import { createDigest, type Digest, digestBytes, digestHex } from '../../sim-core/run/digest.ts';
import type { ScriptedRun } from './scripted-runs.ts';

/** What a run left behind, as text that can be compared between engines. */
export interface Trail {
  /** State digest at every full second. */
  perSecond: string[];
  final: string;
  /** Digest of every figure of every sample. */
  samples: string;
  /** Digest of every figure of the ejecta of every tick, which the state does not hold. */
  ejecta: string;
  savedBytes: number;
  fallenPieces: number;
  deliveredJ: number;
}

/** Steps a run to its end. `look` is called after every tick and must not change anything. */
export function stepThrough(run: ScriptedRun, look?: (simulation: Simulation) => void): Trail {
  const simulation = createSimulation(run.setup);
  const samples = createDigest();
  const ejecta = createDigest();
  const perSecond: string[] = [];
  for (const hand of run.hand) {
    simulation.step(hand);
    const { sample } = simulation;
    digestFigures(
      samples,
      SAMPLE_FIELDS.map((field) => sample[field]),
    );
    digestFigures(ejecta, Object.values(simulation.ejecta));
    if (simulation.tick % TICK_HZ === 0) perSecond.push(simulation.digest());
    look?.(simulation);
  }
  return {
    perSecond,
    final: simulation.digest(),
    samples: digestHex(samples),
    ejecta: digestHex(ejecta),
    savedBytes: simulation.save().length,
    fallenPieces: simulation.fallen.length,
    deliveredJ: simulation.ledger.deliveredJ,
  };
}

/** Every bit of the figures. NaN has many forms that mean the same; an engine may choose, so it goes in as a word of its own. */
function digestFigures(digest: Digest, figures: readonly number[]): void {
  const bits = Float64Array.from(figures, (figure) => (Number.isNaN(figure) ? 1.25e-300 : figure));
  digestBytes(digest, new Uint8Array(bits.buffer));
}
