import { buildSoundGraph } from '../../renderer/sound/sound-graph.ts';
import { type SoundParameters, silence } from '../../renderer/sound/sound-of.ts';

/** A stretch of sound: from `atS` on it sounds so; what is left out is silent. */
export interface Stretch extends Partial<SoundParameters> {
  atS: number;
  /** Everything off, as when the bench stands still. */
  hush?: boolean;
}

export interface Asked {
  stretches: Stretch[];
  lengthS: number;
  volume: number;
}

/** Loudness figures of a piece of the rendered sound, all of full scale. */
export interface Heard {
  peak: number;
  rms: number;
  /** Greatest step from one sample to the next. */
  step: number;
  /** Mean frequency of its spectrum, weighted by amplitude, Hz. */
  centroidHz: number;
}

const SAMPLE_RATE = 48_000;
const WINDOW = 2048;

/** Plain discrete Fourier sums over a few windows of the piece: slow and short. */
function centroid(data: Float32Array): number {
  const bands = 192;
  const stride = Math.max(WINDOW, Math.floor(data.length / 6));
  let weighted = 0;
  let all = 0;
  for (let begin = 0; begin + WINDOW <= data.length; begin += stride) {
    for (let band = 1; band < bands; band += 1) {
      // Evenly spaced up to 12 kHz.
      const hz = (band / bands) * 12_000;
      let re = 0;
      let im = 0;
      for (let n = 0; n < WINDOW; n += 1) {
        const shape = 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / WINDOW);
        const turn = (2 * Math.PI * hz * n) / SAMPLE_RATE;
        re += (data[begin + n] as number) * shape * Math.cos(turn);
        im += (data[begin + n] as number) * shape * Math.sin(turn);
      }
      const size = Math.hypot(re, im);
      weighted += size * hz;
      all += size;
    }
  }
  return all === 0 ? 0 : weighted / all;
}

async function render({ stretches, lengthS, volume }: Asked): Promise<Float32Array> {
  const context = new OfflineAudioContext(1, Math.ceil(lengthS * SAMPLE_RATE), SAMPLE_RATE);
  const graph = buildSoundGraph(context);
  graph.setVolume(volume, 0);
  for (const { atS, hush, ...given } of stretches) {
    if (hush) graph.hush(atS);
    else graph.apply({ ...silence(), ...given }, atS);
  }
  return (await context.startRendering()).getChannelData(0);
}

/** What is heard of the asked-for sound in each piece, s to s. */
async function hear(asked: Asked, pieces: readonly [fromS: number, toS: number][]): Promise<Heard[]> {
  const data = await render(asked);
  return pieces.map(([fromS, toS]) => {
    const piece = data.subarray(Math.round(fromS * SAMPLE_RATE), Math.round(toS * SAMPLE_RATE));
    let peak = 0;
    let power = 0;
    let step = 0;
    for (let n = 0; n < piece.length; n += 1) {
      const value = piece[n] as number;
      peak = Math.max(peak, Math.abs(value));
      power += value * value;
      if (n > 0) step = Math.max(step, Math.abs(value - (piece[n - 1] as number)));
    }
    return { peak, rms: Math.sqrt(power / piece.length), step, centroidHz: centroid(piece) };
  });
}

/** The greatest difference between two renderings of the same sound, of full scale. */
async function differenceOfTwo(asked: Asked): Promise<number> {
  const [one, two] = [await render(asked), await render(asked)];
  return one.reduce((most, value, n) => Math.max(most, Math.abs(value - (two[n] as number))), 0);
}

const entry = { hear, differenceOfTwo };
export type SoundEntry = typeof entry;
Object.assign(globalThis, { sound: entry });
