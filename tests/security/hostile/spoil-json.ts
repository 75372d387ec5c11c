import type { RandomState } from '../../../sim-core/math/random.ts';
import { type Place, withValueAt } from '../sample-request.ts';
import { below, pick } from './pick.ts';

const nested = (depth: number) => JSON.parse(`${'['.repeat(depth)}${']'.repeat(depth)}`) as unknown;

/** Values that no field expects, made anew so that nothing is shared between two inputs. */
const VALUES: readonly (() => unknown)[] = [
  ...[null, true, false, 0, -0, -1, 0.5, 1e308, -1e308, 5e-324, 2 ** 53, 4294967296, Number.MIN_VALUE].map(
    (value) => () => value,
  ),
  ...['', ' ', '\u0000', '\ud800', 'NaN', '1e999', '__proto__', 'constructor', 'toString', '=1+1', '\u202e'].map(
    (value) => () => value,
  ),
  ...['../../records.db', '/etc/passwd', 'C:\\records.db', 'a'.repeat(300), '9'.repeat(400), '\u{1f525}'.repeat(50)].map(
    (value) => () => value,
  ),
  () => [],
  () => ({}),
  () => nested(20),
  () => nested(2000),
  () => new Array(2000).fill(0),
  () => new Array(300).fill({}),
  () => JSON.parse('{"__proto__":{"polluted":true}}') as unknown,
  () => ({ constructor: { prototype: { polluted: true } } }),
  () => Object.fromEntries(Array.from({ length: 500 }, (_, index) => [`k${index}`, index])),
];

/**
 * A copy of a JSON value with one to three places changed: another value put there, a field taken out, added, renamed, or
 * exchanged with another place, a list made longer or turned round.
 */
export function spoilJson(value: unknown, random: RandomState): unknown {
  let spoilt = value;
  for (let times = 1 + below(random, 3); times > 0; times--) spoilt = spoilOnce(spoilt, random);
  return spoilt;
}

function spoilOnce(value: unknown, random: RandomState): unknown {
  const { place, here } = somewhereIn(value, random);
  if (Array.isArray(here) && here.length > 0 && below(random, 2) === 0) {
    const others: (() => unknown[])[] = [
      () => here.toReversed(),
      () => [...here, ...here],
      () => Array.from({ length: here.length * (2 + below(random, 200)) }, (_, index) => here[index % here.length] as unknown),
      () => here.slice(1),
    ];
    return withValueAt(value, place, pick(random, others)());
  }
  if (typeof here === 'object' && here !== null && !Array.isArray(here) && below(random, 2) === 0) {
    const entries = Object.entries(here);
    const at = below(random, entries.length + 1);
    const name = pick(random, ['__proto__', 'constructor', 'prototype', 'extra', '', 'formatVersion', 'toString', 'length']);
    const changed = entries.toSpliced(
      at,
      pick(random, [0, 1]),
      ...pick(random, [[], [[name, pick(random, VALUES)()] as [string, unknown]]]),
    );
    return withValueAt(value, place, Object.fromEntries(changed));
  }
  if (typeof here === 'number' && below(random, 2) === 0)
    return withValueAt(value, place, pick(random, [here * 1000, -here, here + 1, here - 1, here + 1e-9, here / 3]));
  if (below(random, 5) === 0) return withValueAt(value, place, somewhereIn(value, random).here);
  return withValueAt(value, place, pick(random, VALUES)());
}

/** A place reached from the top by going down at random; not equally likely, but a value of any size costs no more than its depth. */
function somewhereIn(value: unknown, random: RandomState): { place: Place; here: unknown } {
  const place: Place = [];
  let here = value;
  while (typeof here === 'object' && here !== null && below(random, 6) > 0) {
    const keys = Object.keys(here);
    if (keys.length === 0) break;
    const key = pick(random, keys);
    place.push(Array.isArray(here) ? Number(key) : key);
    here = (here as Record<string, unknown>)[key];
  }
  return { place, here };
}
