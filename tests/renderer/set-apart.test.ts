import fc from 'fast-check';
import { expect, test } from 'vitest';
import { say } from '../../renderer/text/say.ts';
import { setApart } from '../../renderer/text/set-apart.ts';

test('a text that turns no direction is left as it is', () => {
  for (const text of ['', 'Night class', '\u05D0\u05D1', '<b>', '\u{1F525}']) expect(setApart(text)).toBe(text);
});

test('a text that does is closed in, so that the sentence around it reads on as ever', () => {
  expect(setApart('a\u202Eb')).toBe('\u2068a\u202Eb\u2069');
  expect(setApart('a\u2069b')).toBe('\u2068ab\u2069');
  expect(setApart('a\u2067b')).toBe('\u2068a\u2067b\u2069\u2069');
  expect(say('review.other-core', { version: '\u202E1', own: '2' })).toContain('\u2068\u202E1\u2069');
});

test('whatever it holds, it ends all that it begins and nothing else', () => {
  const sign = fc.constantFrom('\u202A', '\u202E', '\u202C', '\u2066', '\u2067', '\u2068', '\u2069', 'a');
  fc.assert(
    fc.property(fc.string({ unit: sign }), (text) => {
      const apart = setApart(text);
      if (apart === text) return;
      let open = 0;
      const depths = [...apart].map((one) => {
        if (/[\u2066-\u2068]/.test(one)) open++;
        if (one === '\u2069') open--;
        return open;
      });
      // Open from the first sign on, and closed by the very last.
      expect(Math.min(...depths.slice(0, -1))).toBeGreaterThan(0);
      expect(depths.at(-1)).toBe(0);
      expect(apart.replace(/[\u2066-\u2069]/g, '')).toBe(text.replace(/[\u2066-\u2069]/g, ''));
    }),
    { seed: 20_260_107, numRuns: 1000 },
  );
});
