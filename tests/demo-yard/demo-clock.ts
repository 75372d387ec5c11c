const RealDate = Date;

/** The time of day of this process, in the hands of the generator: whatever asks for it gets the moment that was set. */
export interface DemoClock {
  set(atMs: number): void;
  now(): number;
  /** Back to the time of the machine. */
  stop(): void;
}

export function startDemoClock(atMs: number): DemoClock {
  let nowMs = atMs;
  class DemoDate extends RealDate {
    constructor(...given: unknown[]) {
      super(...((given.length === 0 ? [nowMs] : given) as [number]));
    }
    static override now(): number {
      return nowMs;
    }
  }
  globalThis.Date = DemoDate as DateConstructor;
  return {
    set(next) {
      if (next < nowMs) throw new RangeError(`The clock stands at ${new RealDate(nowMs).toISOString()} and cannot go back.`);
      nowMs = next;
    },
    now: () => nowMs,
    stop() {
      globalThis.Date = RealDate;
    },
  };
}
