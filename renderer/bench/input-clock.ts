/**
 * Says which fixed ticks are due by the wall clock, and which moment of the hand belongs to each. The simulation trails the clock
 * by a short wait, so that the input of a moment has arrived when its tick is stepped; the wait follows what was measured.
 * It never asks for an endless catch-up: after a stall the time that cannot be made good is dropped, and counted.
 */
export interface InputClock {
  /** Ticks to step now. */
  due(nowMs: number): number;
  /** Wall time of a tick on the page's clock, ms. */
  tickTimeMs(tick: number): number;
  /** Tells that input of moments up to `lateMs` ago has only now become known; the clock waits a little longer than that. */
  noteLateness(lateMs: number): void;
  /** Stops the clock (page hidden), or lets it go on from now. */
  pause(nowMs: number): void;
  resume(nowMs: number): void;
  readonly delayMs: number;
  readonly droppedMs: number;
}

export interface InputClockOptions {
  tickHz: number;
  startMs: number;
  /** The longest stretch of wall time made good in one go. */
  maxCatchUpMs?: number;
  /** How long the simulation trails the clock, so that input of that moment has arrived: least, and most. */
  minDelayMs?: number;
  maxDelayMs?: number;
}

/** The wait shrinks by this share of the difference each time it is found too long; it grows at once. */
const DELAY_DECAY = 0.02;
const DELAY_MARGIN_MS = 4;

export function createInputClock(options: InputClockOptions): InputClock {
  const { tickHz, maxCatchUpMs = 1000, minDelayMs = 8, maxDelayMs = 400 } = options;
  const msPerTick = 1000 / tickHz;
  let originMs = options.startMs;
  let stepped = 0;
  let delayMs = minDelayMs;
  let droppedMs = 0;
  let pausedAtMs: number | null = null;

  return {
    due(nowMs) {
      if (pausedAtMs !== null) return 0;
      let ticks = Math.floor((nowMs - delayMs - originMs) / msPerTick) - stepped;
      if (ticks <= 0) return 0;
      const most = Math.max(1, Math.round(maxCatchUpMs / msPerTick));
      if (ticks > most) {
        const lost = (ticks - most) * msPerTick;
        originMs += lost;
        droppedMs += lost;
        ticks = most;
      }
      stepped += ticks;
      return ticks;
    },
    tickTimeMs: (tick) => originMs + tick * msPerTick,
    noteLateness(lateMs) {
      const wanted = Math.min(maxDelayMs, Math.max(minDelayMs, lateMs + DELAY_MARGIN_MS));
      delayMs = wanted > delayMs ? wanted : delayMs + (wanted - delayMs) * DELAY_DECAY;
    },
    pause(nowMs) {
      pausedAtMs ??= nowMs;
    },
    resume(nowMs) {
      if (pausedAtMs === null) return;
      originMs += nowMs - pausedAtMs;
      pausedAtMs = null;
    },
    get delayMs() {
      return delayMs;
    },
    get droppedMs() {
      return droppedMs;
    },
  };
}
