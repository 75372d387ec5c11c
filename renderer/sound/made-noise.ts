import { SOUND } from './sound-constants.ts';

/** Random numbers from -1 to 1, the same for the same seed (xorshift, 32 bits). */
function seededRandom(seed: number): () => number {
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state / 0x8000_0000;
  };
}

/** White noise from -1 to 1, to be looped. */
export function whiteNoise(length: number, seed: number): Float32Array<ArrayBuffer> {
  const random = seededRandom(seed);
  return Float32Array.from({ length }, random);
}

/** Crackle to be looped: impulses of random time and height that each die away; those near the end ring on at the beginning. */
export function crackle(length: number, sampleRate: number, seed: number): Float32Array<ArrayBuffer> {
  const random = seededRandom(seed);
  const noise = whiteNoise(length, seed + 1);
  const made = new Float32Array(length);
  const tail = Math.min(length, Math.ceil(SOUND.crackleDecayS * 6 * sampleRate));
  const impulses = Math.round((length / sampleRate) * SOUND.cracklePerS);
  for (let n = 0; n < impulses; n += 1) {
    const at = Math.floor(((random() + 1) / 2) * length) % length;
    const height = 0.3 + 0.7 * Math.abs(random());
    for (let k = 0; k < tail; k += 1) {
      const place = (at + k) % length;
      const fade = Math.exp(-k / (SOUND.crackleDecayS * sampleRate));
      made[place] = Math.max(-1, Math.min(1, (made[place] as number) + (noise[place] as number) * height * fade));
    }
  }
  return made;
}
