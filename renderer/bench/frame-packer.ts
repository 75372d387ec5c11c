import type { Simulation, TileView } from '../../sim-core/index.ts';
import { SAMPLE_FIELDS } from '../../sim-core/index.ts';
import { EJECTA_FIELDS } from '../scene/ejecta-fields.ts';
import type { FrameMessage } from './worker-messages.ts';

/** Gathers what changed since the last frame. Tile numbers wait here while the page is busy drawing. */
export interface FramePacker {
  frame(about: Pick<FrameMessage, 'generation' | 'rate' | 'delayMs' | 'droppedMs'>, hand: Float64Array): FrameMessage;
  /** Every tile goes into the next frame. */
  wholePlate(): void;
}

export function createFramePacker(simulation: Simulation): FramePacker {
  const { grid } = simulation;
  const cells = grid.tileCells * grid.tileCells;
  const heat = grid.heatCellsPerTile * grid.heatCellsPerTile;
  const view: TileView = {
    topDepthMm: new Float32Array(cells),
    bottomRiseMm: new Float32Array(cells),
    pieceOf: new Uint8Array(cells),
    temperatureC: new Float32Array(heat),
  };
  let whole = true;

  return {
    wholePlate() {
      whole = true;
    },
    frame(about, hand) {
      const changed = simulation.takeChangedTiles();
      const tiles = whole ? Int32Array.from({ length: grid.tilesX * grid.tilesY }, (_, tile) => tile) : Int32Array.from(changed);
      whole = false;
      const message: FrameMessage = {
        kind: 'frame',
        ...about,
        tick: simulation.tick,
        sample: Float64Array.from(SAMPLE_FIELDS, (field) => simulation.sample[field]),
        ejecta: Float64Array.from(EJECTA_FIELDS, (field) => simulation.ejecta[field]),
        hand,
        fallen: simulation.fallen.map((piece) => ({ ...piece })),
        tiles,
        topDepthMm: new Float32Array(tiles.length * cells),
        bottomRiseMm: new Float32Array(tiles.length * cells),
        pieceOf: new Uint8Array(tiles.length * cells),
        temperatureC: new Float32Array(tiles.length * heat),
      };
      tiles.forEach((tile, n) => {
        simulation.readTile(tile, view);
        message.topDepthMm.set(view.topDepthMm, n * cells);
        message.bottomRiseMm.set(view.bottomRiseMm, n * cells);
        message.pieceOf.set(view.pieceOf, n * cells);
        message.temperatureC.set(view.temperatureC, n * heat);
      });
      return message;
    },
  };
}

/** What is handed over with a frame instead of being copied. */
export function buffersOf(message: FrameMessage): Transferable[] {
  return [
    message.sample,
    message.ejecta,
    message.hand,
    message.tiles,
    message.topDepthMm,
    message.bottomRiseMm,
    message.pieceOf,
    message.temperatureC,
  ].map((array) => array.buffer);
}
