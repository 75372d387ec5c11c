import type { FallenPiece, SimulationSetup } from '../../sim-core/index.ts';
import { createHangWatch, type Hang } from './hanging-piece.ts';
import type { PlateField } from './plate-field.ts';
import type { MarkedLine } from './skin-canvas.ts';

/** The metal is looked at no more often than once in so many frames: a walk along the whole line. */
const FRAMES_BETWEEN_LOOKS = 6;
/** A piece gives way no faster than this, 1/s. */
const SAG_RATE_PER_S = 9;

export interface HangSag {
  metalChanged(): void;
  /** Keeps `field.hang` and `field.fellFrom` up to date. */
  frame(source: { fallen: readonly FallenPiece[]; rate: number }, seconds: number): void;
}

/** The piece that hangs by little, from frame to frame: how it sags, and from where it falls. */
export function createHangSag(setup: SimulationSetup, line: MarkedLine, field: PlateField): HangSag {
  const watch = createHangWatch(setup, line, field);
  let waiting = 0;
  let changed = true;
  let fallen = 0;
  let wanted: Hang | null = null;

  return {
    metalChanged() {
      changed = true;
    },
    frame(source, seconds) {
      const fell = source.fallen.length > fallen;
      if (fell && field.hang) field.fellFrom.set((source.fallen[fallen] as FallenPiece).id, field.hang);
      waiting -= 1;
      if (source.fallen.length !== fallen || (changed && (waiting <= 0 || source.rate === 0))) {
        fallen = source.fallen.length;
        wanted = watch.look(fallen);
        waiting = FRAMES_BETWEEN_LOOKS;
        changed = false;
      }
      if (!wanted) {
        field.hang = null;
        return;
      }
      const share = source.rate === 0 ? 1 : 1 - Math.exp(-Math.min(0.2, Math.max(0, seconds)) * SAG_RATE_PER_S);
      const before = field.hang ?? { tipRad: 0, dropMm: 0 };
      field.hang = {
        ...wanted,
        tipRad: before.tipRad + (wanted.tipRad - before.tipRad) * share,
        dropMm: before.dropMm + (wanted.dropMm - before.dropMm) * share,
      };
    },
  };
}
