import * as elementary from '../../sim-core/math/elementary.ts';
import { nextInteger, nextNormal, nextUnit, type RandomState } from '../../sim-core/math/random.ts';

const SAMPLES = 20_000;

/** Inputs over many magnitudes, of both signs, with the awkward ones first. */
function inputs(seed: number): Float64Array {
  const random: RandomState = { counter: seed };
  const values = new Float64Array(SAMPLES);
  values.set([
    0,
    -0,
    1,
    -1,
    0.5,
    1e-300,
    -1e-300,
    1e300,
    Infinity,
    -Infinity,
    Number.NaN,
    elementary.PI,
    2147483648,
    -2147483649,
  ]);
  for (let i = 14; i < SAMPLES; i++) {
    const scale = [1e-6, 1e-2, 1, 1, 10, 100, 700][nextInteger(random) % 7] ?? 1;
    values[i] = (nextUnit(random) * 2 - 1) * scale;
  }
  return values;
}

type OfOne = (x: number) => number;
type OfTwo = (x: number, y: number) => number;

/** Every exported function of one or two numbers, so that a new one cannot be forgotten. */
function functions(): [name: string, compute: OfTwo][] {
  const entries = Object.entries(elementary) as [string, unknown][];
  return entries.flatMap(([name, value]): [string, OfTwo][] => {
    if (typeof value !== 'function') return [];
    if (value.length === 1) return [[name, (x) => (value as OfOne)(x)]];
    return value.length === 2 ? [[name, value as OfTwo]] : [];
  });
}

/** Raw bits of every answer, by function, in base 16. A NaN is a NaN, whatever its unused bits. */
export function mathSamples(): Record<string, string> {
  const xs = inputs(1);
  const ys = inputs(2);
  const answers: Record<string, Float64Array> = {};
  for (const [name, compute] of functions()) answers[name] = xs.map((x, i) => compute(x, ys[i] ?? 0));
  const random: RandomState = { counter: 3 };
  answers.normal = Float64Array.from({ length: SAMPLES }, () => nextNormal(random));
  return Object.fromEntries(Object.entries(answers).map(([name, values]) => [name, bitsOf(values)]));
}

function bitsOf(values: Float64Array): string {
  const words = new Uint32Array(values.map((value) => (Number.isNaN(value) ? Number.NaN : value)).buffer);
  return Array.from(words, (word) => word.toString(36)).join(' ');
}
