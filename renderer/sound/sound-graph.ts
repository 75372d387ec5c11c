import { crackle, whiteNoise } from './made-noise.ts';
import { LAYER_GAIN, SOUND, SOUND_LAYERS, type SoundLayer } from './sound-constants.ts';
import { limiter } from './sound-limiter.ts';
import { type SoundParameters, silence } from './sound-of.ts';

/** Nodes that turn moments of sound into sound. They run from the start; only gains and pitches move, so a frame makes no node. */
export interface SoundGraph {
  /** From `atS` of the context's clock on it sounds so. */
  apply(sound: Readonly<SoundParameters>, atS: number): void;
  /** Everything fades to silence, whatever sounds. */
  hush(atS: number): void;
  /** Volume, 0 to 1, behind the limiter: it can only take away. The ear is given even steps by its square. */
  setVolume(level: number, atS: number): void;
}

/** Less of a change than this, as a share, is not passed on. */
const SAME_SHARE = 0.004;

export function buildSoundGraph(context: BaseAudioContext): SoundGraph {
  const { sampleRate } = context;
  const length = Math.round(SOUND.noiseS * sampleRate);
  const looped = (data: Float32Array<ArrayBuffer>, playbackRate = 1): AudioBufferSourceNode => {
    const buffer = context.createBuffer(1, data.length, sampleRate);
    buffer.copyToChannel(data, 0);
    const source = new AudioBufferSourceNode(context, { buffer, loop: true, playbackRate });
    source.start();
    return source;
  };
  const tone = (type: OscillatorType, frequency: number): OscillatorNode => {
    const oscillator = new OscillatorNode(context, { type, frequency });
    oscillator.start();
    return oscillator;
  };
  const filter = (type: BiquadFilterType, frequency: number, Q = 0.7) => new BiquadFilterNode(context, { type, frequency, Q });
  const gain = (value: number) => new GainNode(context, { gain: value });

  const noise = looped(whiteNoise(length, SOUND.noiseSeed));
  const spatter = looped(crackle(length, sampleRate, SOUND.noiseSeed + 2));
  /** Noise slowed down to some tens of a second: what makes an arc unsteady. */
  const unrest = looped(whiteNoise(Math.round(sampleRate / 4), SOUND.noiseSeed + 4), 0.004);

  const mix = gain(1);
  const volume = gain(0);
  const limited = limiter(context);
  mix.connect(limited.input);
  limited.output.connect(volume).connect(context.destination);

  const levels = Object.fromEntries(
    SOUND_LAYERS.map((layer) => {
      const level = gain(0);
      level.connect(mix);
      return [layer, level];
    }),
  ) as Record<SoundLayer, GainNode>;

  noise.connect(filter('highpass', 3200)).connect(filter('lowpass', 9000)).connect(levels.gas);

  spatter.connect(filter('bandpass', 1500, 0.8)).connect(levels.pilot);
  tone('square', 100)
    .connect(filter('bandpass', 900, 1.2))
    .connect(gain(0.25))
    .connect(levels.pilot);

  // The arc: its pitch and its noise through one edge, unsteady together.
  const arcTone = tone('sawtooth', SOUND.toneHz);
  const edge = filter('lowpass', SOUND.brightHz, 0.9);
  const body = gain(1);
  const swing = gain(0);
  const sway = gain(0);
  arcTone.connect(gain(0.32)).connect(body);
  noise.connect(filter('highpass', 250)).connect(gain(0.55)).connect(body);
  body.connect(edge).connect(levels.arc);
  unrest.connect(swing).connect(body.gain);
  unrest.connect(sway).connect(arcTone.detune);

  noise.connect(filter('lowpass', 340, 0.9)).connect(levels.under);
  spatter.connect(filter('highpass', 2600)).connect(filter('lowpass', 7000)).connect(levels.spray);

  const second = filter('bandpass', 1100, 1.6);
  tone('sawtooth', 87).connect(second);
  tone('sawtooth', 131).connect(second);
  second.connect(gain(0.5)).connect(levels.double);

  noise.connect(filter('bandpass', 800, 0.8)).connect(levels.lost);
  noise.connect(filter('lowpass', 500)).connect(levels.out);

  const set = silence();
  function glide(param: AudioParam, from: number, to: number, atS: number): boolean {
    // What stops must stop wholly; for the rest what cannot be heard is left.
    if (from === to || (to !== 0 && Math.abs(to - from) < SAME_SHARE * Math.abs(to))) return false;
    param.setTargetAtTime(to, atS, SOUND.followS);
    return true;
  }

  return {
    apply(sound, atS) {
      for (const layer of SOUND_LAYERS) {
        const from = set[layer] * LAYER_GAIN[layer];
        if (glide(levels[layer].gain, from, sound[layer] * LAYER_GAIN[layer], atS)) set[layer] = sound[layer];
      }
      if (glide(arcTone.frequency, set.toneHz, sound.toneHz, atS)) set.toneHz = sound.toneHz;
      if (glide(edge.frequency, set.brightHz, sound.brightHz, atS)) set.brightHz = sound.brightHz;
      if (glide(swing.gain, set.roughness, sound.roughness, atS)) {
        set.roughness = sound.roughness;
        // In cents: a rough arc also sways in pitch.
        sway.gain.setTargetAtTime(sound.roughness * 160, atS, SOUND.followS);
      }
    },
    hush(atS) {
      for (const layer of SOUND_LAYERS) if (glide(levels[layer].gain, set[layer], 0, atS)) set[layer] = 0;
    },
    setVolume(level, atS) {
      const wanted = Math.max(0, Math.min(1, level));
      volume.gain.setTargetAtTime(wanted * wanted, atS, SOUND.volumeS);
    },
  };
}
