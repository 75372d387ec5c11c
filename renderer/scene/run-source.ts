import type { Ejecta, FallenPiece, FieldGrid, Sample, SimulationSetup } from '../../sim-core/index.ts';
import type { PlateField } from './plate-field.ts';

/** Attitude and trigger of the hand at the latest tick; places and speeds are in the sample. */
export interface HandNow {
  leanXDeg: number;
  leanYDeg: number;
  trigger: boolean;
}

/**
 * What the scene looks at, whether the metal is being cut now or was cut last month. Values are those of the latest tick that
 * reached the page; the objects are replaced or refilled, so read them in the frame loop and keep nothing.
 */
export interface RunSource {
  readonly kind: 'live' | 'recorded';
  readonly setup: SimulationSetup;
  readonly grid: FieldGrid;
  readonly tick: number;
  readonly sample: Readonly<Sample>;
  readonly ejecta: Readonly<Ejecta>;
  readonly hand: Readonly<HandNow>;
  readonly fallen: readonly FallenPiece[];
  /** Metal and heat of the whole plate, with the tiles to rebuild. */
  readonly field: PlateField;
  /** Simulated seconds a wall second: 1 live, 0 while a replay stands still, negative while it plays backward. */
  readonly rate: number;
  /** Goes up when time jumps, so that sparks in flight are not carried over. */
  readonly generation: number;
  /** Called after every change; returns the way to stop being called. */
  onFrame(listener: () => void): () => void;
  close(): void;
}
