import { SOUND } from './sound-constants.ts';

const CURVE_POINTS = 1025;

/**
 * What nothing gets past: a compressor that keeps the level even, then a curve that ends at the ceiling on both sides, whatever
 * goes in. The curve is what holds the ceiling; the compressor only keeps it from being needed.
 */
export function limiter(context: BaseAudioContext): { input: AudioNode; output: AudioNode } {
  const compressor = new DynamicsCompressorNode(context, { threshold: -14, knee: 6, ratio: 16, attack: 0.003, release: 0.12 });
  const curve = Float32Array.from(
    { length: CURVE_POINTS },
    (_, n) => SOUND.ceiling * Math.sin((Math.PI / 2) * ((2 * n) / (CURVE_POINTS - 1) - 1)),
  );
  const shaper = new WaveShaperNode(context, { curve, oversample: 'none' });
  compressor.connect(shaper);
  return { input: compressor, output: shaper };
}
