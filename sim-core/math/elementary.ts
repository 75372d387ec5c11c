/**
 * Elementary functions made of + - * / and Math.sqrt only, so that every engine gives the same last bit.
 * Engines differ in the last place of Math.sin and its siblings; the core therefore never calls them.
 */

export const PI = 3.141592653589793;
export const TAU = 2 * PI;
const HALF_PI = PI / 2;
export const RAD_PER_DEG = PI / 180;
export const DEG_PER_RAD = 180 / PI;

/** Largest integer not above x. */
export function floor(x: number): number {
  if (x >= -2147483648 && x < 2147483648) {
    const whole = x | 0;
    return x < whole ? whole - 1 : whole;
  }
  const rest = x % 1;
  return rest < 0 ? x - rest - 1 : x - rest;
}

/** Nearest integer, halves up. */
export function round(x: number): number {
  return floor(x + 0.5);
}

export function abs(x: number): number {
  return x < 0 ? -x : x;
}

export function clamp(x: number, low: number, high: number): number {
  return x < low ? low : x > high ? high : x;
}

/** Sine on [-pi/4, pi/4] by its Taylor series; remainder under 1e-17. */
function sinSmall(x: number): number {
  const q = x * x;
  return (
    x *
    (1 -
      (q / 6) *
        (1 - (q / 20) * (1 - (q / 42) * (1 - (q / 72) * (1 - (q / 110) * (1 - (q / 156) * (1 - (q / 210) * (1 - q / 272))))))))
  );
}

function cosSmall(x: number): number {
  const q = x * x;
  return (
    1 -
    (q / 2) *
      (1 -
        (q / 12) *
          (1 - (q / 30) * (1 - (q / 56) * (1 - (q / 90) * (1 - (q / 132) * (1 - (q / 182) * (1 - (q / 240) * (1 - q / 306))))))))
  );
}

/** Sine of x radians; error under 4e-16 for |x| < 100. */
export function sin(x: number): number {
  const quarter = round(x / HALF_PI);
  const rest = x - quarter * HALF_PI;
  const phase = quarter - 4 * floor(quarter / 4);
  if (phase === 0) return sinSmall(rest);
  if (phase === 1) return cosSmall(rest);
  if (phase === 2) return -sinSmall(rest);
  return -cosSmall(rest);
}

/** Cosine of x radians; error under 4e-16 for |x| < 100. */
export function cos(x: number): number {
  return sin(x + HALF_PI);
}

/** Tangent of x radians. */
export function tan(x: number): number {
  return sin(x) / cos(x);
}

/** Arc tangent in radians, -pi/2 to pi/2; halves the angle twice, then sums the series. */
export function atan(x: number): number {
  const magnitude = abs(x);
  if (magnitude > 1) {
    const rest = HALF_PI - atanUnit(1 / magnitude);
    return x < 0 ? -rest : rest;
  }
  const value = atanUnit(magnitude);
  return x < 0 ? -value : value;
}

function atanUnit(x: number): number {
  const half = x / (1 + Math.sqrt(1 + x * x));
  const quarter = half / (1 + Math.sqrt(1 + half * half));
  const q = quarter * quarter;
  const far = 1 / 13 - q * (1 / 15 - q * (1 / 17 - q * (1 / 19 - q * (1 / 21))));
  const sum = 1 - q * (1 / 3 - q * (1 / 5 - q * (1 / 7 - q * (1 / 9 - q * (1 / 11 - q * far)))));
  return 4 * quarter * sum;
}

/** Angle of (x, y) in radians, -pi to pi; 0 at the origin. */
export function atan2(y: number, x: number): number {
  if (x > 0) return atan(y / x);
  if (x < 0) return y >= 0 ? atan(y / x) + PI : atan(y / x) - PI;
  return y > 0 ? HALF_PI : y < 0 ? -HALF_PI : 0;
}

const LN2 = 0.6931471805599453;

/** Natural exponential; relative error under 1e-15; 0 below -700, Infinity above 700. */
export function exp(x: number): number {
  if (x < -700) return 0;
  if (x > 700) return 1 / 0;
  const halvings = round(x / LN2);
  const rest = x - halvings * LN2;
  let sum = 1;
  for (let n = 14; n >= 1; n--) sum = 1 + (rest * sum) / n;
  const step = halvings < 0 ? 0.5 : 2;
  let count = halvings < 0 ? -halvings : halvings;
  let base = step;
  while (count > 0) {
    if (count % 2 === 1) sum *= base;
    base *= base;
    count = floor(count / 2);
  }
  return sum;
}

/** Natural logarithm of a positive number, Infinity of Infinity; NaN otherwise. */
export function log(x: number): number {
  if (!(x > 0)) return 0 / 0;
  if (x === 1 / 0) return x;
  let mantissa = x;
  let twos = 0;
  while (mantissa > 1.4142135623730951) {
    mantissa /= 2;
    twos++;
  }
  while (mantissa < 0.7071067811865476) {
    mantissa *= 2;
    twos--;
  }
  const z = (mantissa - 1) / (mantissa + 1);
  const q = z * z;
  let sum = 0;
  for (let n = 23; n >= 1; n -= 2) sum = 1 / n + q * sum;
  return 2 * z * sum + twos * LN2;
}

/** x to a real power, x > 0. */
export function power(x: number, exponent: number): number {
  return exp(exponent * log(x));
}
