import fc from 'fast-check';
import { expect, test } from 'vitest';
import { SOUND_LAYERS } from '../../renderer/sound/sound-constants.ts';
import { createSoundSigns, SIGN_STANDS_S, SOUND_CUES } from '../../renderer/sound/sound-cues.ts';
import { silence } from '../../renderer/sound/sound-of.ts';
import { isTextKey, say } from '../../renderer/text/say.ts';

const FRAME_S = 1 / 60;

test('everything that can be heard has a sign of its own: words and a shape that no other has', () => {
  expect(Object.keys(SOUND_CUES)).toEqual([...SOUND_LAYERS]);
  const cues = SOUND_LAYERS.map((layer) => SOUND_CUES[layer]);
  for (const { sign } of cues) expect(isTextKey(sign)).toBe(true);
  expect(new Set(cues.map(({ sign }) => say(sign))).size).toBe(SOUND_LAYERS.length);
  expect(new Set(cues.map(({ shape }) => shape)).size).toBe(SOUND_LAYERS.length);
});

test.each(SOUND_LAYERS)('%s is seen within a frame of being heard, and goes after it', (layer) => {
  const signs = createSoundSigns();
  const index = SOUND_LAYERS.indexOf(layer);
  expect(signs.look(silence(), 10)).toBe(false);
  expect(signs.look({ ...silence(), [layer]: 0.06 }, 10 + FRAME_S)).toBe(true);
  expect(signs.shown.map((shown, n) => (shown ? n : -1)).filter((n) => n >= 0)).toEqual([index]);
  const { staysS } = SOUND_CUES[layer];
  if (staysS > SIGN_STANDS_S) signs.look(silence(), 10 + staysS * 0.9);
  if (staysS > SIGN_STANDS_S) expect(signs.shown[index]).toBe(true);
  signs.look(silence(), 10.1 + Math.max(staysS, SIGN_STANDS_S));
  expect(signs.shown[index]).toBe(false);
});

test('what sounds for longer than a sign stands is shown, and no sign changes more than three times in any second', () => {
  const levels = fc.array(fc.boolean(), { minLength: 200, maxLength: 400 });
  fc.assert(
    fc.property(levels, (flicker) => {
      const signs = createSoundSigns();
      const sound = silence();
      const changes: number[] = [];
      let heardFor = 0;
      let before = false;
      flicker.forEach((on, n) => {
        sound.under = on ? 0.5 : 0;
        heardFor = on ? heardFor + FRAME_S : 0;
        signs.look(sound, n * FRAME_S);
        const now = signs.shown[SOUND_LAYERS.indexOf('under')] as boolean;
        if (now !== before) changes.push(n * FRAME_S);
        before = now;
        if (heardFor > SIGN_STANDS_S + FRAME_S) expect(now).toBe(true);
      });
      changes.forEach((at, n) => {
        const fourth = changes[n + 3];
        if (fourth !== undefined) expect(fourth - at).toBeGreaterThan(1);
      });
    }),
    { seed: 20_260_116 },
  );
});
