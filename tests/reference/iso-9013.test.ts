// S6: ISO 9013:2017, tables 4 and 5: ranges of the perpendicularity tolerance u and of the mean profile height Rz5. The formulas
// were read in a secondary source only and agree with memory; the standard's own tables were not read. Catches a slipped
// coefficient, a range counted from the wrong end, and millimetres taken for micrometres.
import { expect, test } from 'vitest';
import { rz5LimitUm, rz5RangeOf, uLimitMm, uRangeOf } from '../../sim-core/quality/iso-9013.ts';
import { expectPublished } from './expect-published.ts';
import { ISO_9013_CHECKS, ISO_9013_TABLE } from './iso-9013-checks.ts';

test.each(ISO_9013_CHECKS)('$about', expectPublished);

test.each(ISO_9013_TABLE)('a figure at a limit of %d mm is still in that range, one beyond it in the next', (a, u, rz5) => {
  for (const [n, limit] of u.entries()) {
    expect(uRangeOf(limit - 1e-9, a)).toBe(n + 1);
    expect(uRangeOf(limit + 1e-9, a)).toBe(n + 1 < u.length ? n + 2 : null);
  }
  for (const [n, limit] of rz5.entries()) {
    expect(rz5RangeOf(limit - 1e-9, a)).toBe(n + 1);
    expect(rz5RangeOf(limit + 1e-9, a)).toBe(n + 1 < rz5.length ? n + 2 : null);
  }
});

test('there is no range 0, no u range 6 and no Rz5 range 5', () => {
  expect(() => uLimitMm(0, 6)).toThrow(RangeError);
  expect(() => uLimitMm(6, 6)).toThrow(RangeError);
  expect(() => rz5LimitUm(5, 6)).toThrow('There is no range 5: 1 to 4 are there.');
});
