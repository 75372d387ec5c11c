import type { Ejecta } from '../../sim-core/index.ts';

/** Floats of one spark: start xyz, velocity xyz, birth s, life s, size mm, side (0 under, 1 top). */
export const SPARK_FLOATS = 10;

export const GRAVITY_MM_PER_S2 = 9810;

/** A cut that throws this much metal a second keeps two thirds of the pool in the air. */
const FULL_STREAM_MM3_PER_S = 200;
const UNDER_SPEED_MM_PER_S = 1050;
const TOP_SPEED_MM_PER_S = 620;
/** Height at which metal thrown off the top comes into sight, mm. */
const TOP_SEEN_MM = 0.3;
/** Spray breaks into this many more drops than the stream below has streaks. */
const TOP_DROPS = 2;
/** Half width of the lobe around the core's mean direction, as a share of the speed. */
const UNDER_SPREAD = 0.15;
const TOP_SPREAD = 0.42;
/** Long enough to strike the floor of the tray and leap once more. */
const UNDER_LIFE_S = 0.42;
/** A picture that stands still shows every streak at full length; fewer of them look like the same stream. */
const STILL_SHARE = 0.5;
const TOP_LIFE_S = 0.42;
/** Share of that life: the shortest, and what is drawn by lot on top. */
const LIFE_SHARE = { least: 0.45, more: 0.8 } as const;
export const LONGEST_LIFE_S = Math.max(UNDER_LIFE_S, TOP_LIFE_S) * (LIFE_SHARE.least + LIFE_SHARE.more);

/**
 * Sparks in flight, in a ring: the oldest gives way. Where they go, from which side and how many is the core's ejecta; the spread
 * and the speed are for the eye only. A small generator of its own keeps pictures repeatable.
 */
export interface SparkPool {
  readonly data: Float32Array<ArrayBuffer>;
  readonly capacity: number;
  /** Lets metal fly for a stretch of scene time. */
  emit(ejecta: Readonly<Ejecta>, fromS: number, toS: number): void;
  /** Fills the air as it would be had the cut been going on as now: for a picture that stands still. */
  settle(ejecta: Readonly<Ejecta>, nowS: number): void;
  clear(): void;
  /** What was written since the last call: so many sparks, in the ring from this one on; null = nothing. */
  takeWritten(): { from: number; count: number } | null;
}

export function createSparkPool(capacity: number, thicknessMm: number): SparkPool {
  const data = new Float32Array(capacity * SPARK_FLOATS);
  let next = 0;
  let written = 0;
  let owedUnder = 0;
  let owedTop = 0;
  let seed = 0x2f6e2b1;

  function random(): number {
    seed ^= seed << 13;
    seed ^= seed >>> 17;
    seed ^= seed << 5;
    return (seed >>> 0) / 4294967296;
  }
  const centred = () => random() + random() + random() - 1.5;

  function put(start: readonly number[], direction: readonly number[], top: boolean, birthS: number): void {
    const speed = (top ? TOP_SPEED_MM_PER_S : UNDER_SPEED_MM_PER_S) * (0.55 + 0.9 * random());
    const spread = top ? TOP_SPREAD : UNDER_SPREAD;
    const at = next * SPARK_FLOATS;
    for (let axis = 0; axis < 3; axis += 1) {
      data[at + axis] = (start[axis] as number) + 0.35 * centred();
      const along = (direction[axis] as number) + spread * centred();
      data[at + 3 + axis] = (top && axis === 2 ? Math.abs(along) : along) * speed;
    }
    data[at + 6] = birthS;
    data[at + 7] = (top ? TOP_LIFE_S : UNDER_LIFE_S) * (LIFE_SHARE.least + LIFE_SHARE.more * random());
    data[at + 8] = top ? 0.6 + 0.7 * random() : 0.28 + 0.3 * random();
    data[at + 9] = top ? 1 : 0;
    written += 1;
    next = (next + 1) % capacity;
  }

  function side(ejecta: Readonly<Ejecta>, top: boolean, count: number, fromS: number, toS: number): void {
    // Thrown from the bottom of a groove it is first seen where it comes over the plate.
    const start = top
      ? [ejecta.topXMm, ejecta.topYMm, Math.max(TOP_SEEN_MM, ejecta.topZMm)]
      : [ejecta.underXMm, ejecta.underYMm, -thicknessMm];
    const direction = top
      ? [ejecta.topDirX, ejecta.topDirY, ejecta.topDirZ]
      : [ejecta.underDirX, ejecta.underDirY, ejecta.underDirZ];
    if (![...start, ...direction].every(Number.isFinite)) return;
    for (let n = 0; n < count; n += 1) put(start, direction, top, fromS + (toS - fromS) * random());
  }

  const sparksPerMm3 = (capacity * 0.66) / (FULL_STREAM_MM3_PER_S * UNDER_LIFE_S);
  const rateOf = (mm3PerS: number) => (Number.isFinite(mm3PerS) ? mm3PerS * sparksPerMm3 : 0);

  return {
    data,
    capacity,
    emit(ejecta, fromS, toS) {
      const seconds = Math.min(0.1, toS - fromS);
      if (!(seconds > 0)) return;
      owedUnder += rateOf(ejecta.underRateMm3PerS) * seconds;
      owedTop += TOP_DROPS * rateOf(ejecta.topRateMm3PerS) * seconds;
      const under = Math.min(Math.floor(owedUnder), capacity >> 2);
      const top = Math.min(Math.floor(owedTop), capacity >> 3);
      owedUnder = Math.min(1, owedUnder - under);
      owedTop = Math.min(1, owedTop - top);
      side(ejecta, false, under, toS - seconds, toS);
      side(ejecta, true, top, toS - seconds, toS);
    },
    settle(ejecta, nowS) {
      this.clear();
      const under = Math.min(capacity * 0.5, rateOf(ejecta.underRateMm3PerS) * UNDER_LIFE_S * STILL_SHARE);
      const top = Math.min(capacity * 0.25, TOP_DROPS * rateOf(ejecta.topRateMm3PerS) * TOP_LIFE_S);
      side(ejecta, false, Math.floor(under), nowS - UNDER_LIFE_S, nowS);
      side(ejecta, true, Math.floor(top), nowS - TOP_LIFE_S, nowS);
    },
    clear() {
      data.fill(0);
      next = 0;
      written = capacity;
      owedUnder = 0;
      owedTop = 0;
      seed = 0x2f6e2b1;
    },
    takeWritten() {
      if (written === 0) return null;
      const count = Math.min(capacity, written);
      written = 0;
      return { from: (next - count + capacity) % capacity, count };
    },
  };
}
