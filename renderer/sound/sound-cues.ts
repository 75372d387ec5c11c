import type { TextKey } from '../text/en.ts';
import { SOUND_LAYERS, type SoundLayer } from './sound-constants.ts';
import type { SoundParameters } from './sound-of.ts';

export interface SoundCue {
  /** Words of the sign. */
  sign: TextKey;
  /** Outline of the sign in a box of 20 by 20; no two are alike. */
  shape: string;
  /** How long the sign stays after its sound, s: what is over in a moment must still be readable. */
  staysS: number;
}

/**
 * Everything that can be heard, and beside it what is seen of it. Layers of sound and signs are both made from this table, in this
 * order, so that neither is without the other.
 */
export const SOUND_CUES: Readonly<Record<SoundLayer, SoundCue>> = {
  gas: { sign: 'sound.sign.gas', shape: 'M2 5h11v2H2zm3 4h13v2H5zm-3 4h9v2H2z', staysS: 0 },
  pilot: { sign: 'sound.sign.pilot', shape: 'M8 2h4v6l-2 3-2-3zm0 12h4v4H8z', staysS: 0 },
  arc: { sign: 'sound.sign.arc', shape: 'M12 1L4 11h5l-2 8 9-11h-5z', staysS: 0 },
  under: { sign: 'sound.sign.under', shape: 'M1 5h6v3H1zm12 0h6v3h-6zM9 2h2v10h4l-5 7-5-7h4z', staysS: 0 },
  spray: {
    sign: 'sound.sign.spray',
    shape: 'M1 15h18v3H1zM9 13V7H5l5-6 5 6h-4v6zM2 12l1-5 2 1-2 5zm16 0l-1-5-2 1 2 5z',
    staysS: 0,
  },
  double: { sign: 'sound.sign.double', shape: 'M7 1L2 10h3l-1 8 5-10H6zm9 0l-5 9h3l-1 8 5-10h-3z', staysS: 0.8 },
  lost: { sign: 'sound.sign.lost', shape: 'M3 5l2-2 5 5 5-5 2 2-5 5 5 5-2 2-5-5-5 5-2-2 5-5z', staysS: 1.6 },
  out: { sign: 'sound.sign.out', shape: 'M4 4h12v12H4zm3 3v6h6V7z', staysS: 1 },
};

/** A sign that has changed stands at least so long, s: it cannot flash more than three times in two seconds. */
export const SIGN_STANDS_S = 0.34;

export interface SoundSigns {
  /** Which signs show, in the order of the table; the array is refilled. */
  readonly shown: readonly boolean[];
  /** Takes in a moment of sound; true where a sign has come or gone. Time in s, of any clock that does not run backward. */
  look(sound: Readonly<SoundParameters>, nowS: number): boolean;
}

export function createSoundSigns(): SoundSigns {
  const shown = SOUND_LAYERS.map(() => false);
  const heardAt = SOUND_LAYERS.map(() => Number.NEGATIVE_INFINITY);
  const changedAt = SOUND_LAYERS.map(() => Number.NEGATIVE_INFINITY);
  return {
    shown,
    look(sound, nowS) {
      let changed = false;
      for (let n = 0; n < SOUND_LAYERS.length; n += 1) {
        const layer = SOUND_LAYERS[n] as SoundLayer;
        if (sound[layer] > 0) heardAt[n] = nowS;
        const wanted = nowS - (heardAt[n] as number) <= SOUND_CUES[layer].staysS;
        if (wanted === shown[n] || nowS - (changedAt[n] as number) < SIGN_STANDS_S) continue;
        shown[n] = wanted;
        changedAt[n] = nowS;
        changed = true;
      }
      return changed;
    },
  };
}
