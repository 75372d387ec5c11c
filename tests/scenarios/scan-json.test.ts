// The walk over JSON must accept exactly what the language's own reader accepts, but for duplicate and forbidden keys.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { scanJson } from '../../sim-core/index.ts';

function readable(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

test('every JSON value is read as the language reads it', () => {
  fc.assert(
    fc.property(fc.json({ maxDepth: 6 }), fc.integer({ min: 0, max: 4 }), (text, indent) => {
      const laidOut = JSON.stringify(JSON.parse(text), null, indent);
      if (/"(__proto__|constructor|prototype)"/.test(laidOut)) return;
      expect(scanJson(laidOut)).toEqual({ ok: true, value: JSON.parse(laidOut) });
    }),
    { seed: 20_260_108 },
  );
});

test('a text with one character changed is refused exactly where the language refuses it', () => {
  const base = '{"a": [1, -2.5e3, "x\\u00e9\\n", true, null, {"b": {}}], "c": "d"}';
  const spoil = fc.tuple(fc.nat(base.length), fc.constantFrom(...'{}[]",:\\ \n0-.eEtfnu/xA\u0001'), fc.boolean());
  fc.assert(
    fc.property(spoil, ([at, char, insert]) => {
      const text = base.slice(0, at) + char + base.slice(insert ? at : at + 1);
      const duplicate = scanJson(text);
      if (!duplicate.ok && /twice/.test(duplicate.problem.sentence)) return;
      expect(duplicate.ok, text).toBe(readable(text));
    }),
    { seed: 20_260_108, numRuns: 3000 },
  );
});

test('megabytes in one string are no trouble', () => {
  const text = JSON.stringify({ inputs: 'A'.repeat(5_000_000) });
  expect(scanJson(text).ok).toBe(true);
  expect(scanJson(text.slice(0, -2)).ok).toBe(false);
});
