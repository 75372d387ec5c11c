const LOOK_MS = 1000;
/** So many looks one after the other that find nothing new: a page that was held up itself looks once, however long that was. */
const SILENT_LOOKS = 5;

/** Looks whether the simulation worker still says something while a run is being cut; a worker that was suspended tells nothing itself. */
export interface WorkerWatch {
  /** Something came from the worker. */
  heard(): void;
  /** Whether something must come now: while the clock of the run stands still nothing does. */
  expect(expected: boolean): void;
  close(): void;
}

/** `onSilent` is called once for each silence, `onHeard` when it is over. */
export function watchWorker(onSilent: () => void, onHeard: () => void): WorkerWatch {
  let silentLooks = 0;
  let told = false;
  let looking: ReturnType<typeof setInterval> | null = null;

  function look(): void {
    silentLooks += 1;
    if (silentLooks < SILENT_LOOKS || told) return;
    told = true;
    onSilent();
  }

  function stop(): void {
    if (looking !== null) clearInterval(looking);
    looking = null;
  }

  return {
    heard() {
      silentLooks = 0;
      if (!told) return;
      told = false;
      onHeard();
    },
    expect(expected) {
      silentLooks = 0;
      if (!expected) stop();
      else looking ??= setInterval(look, LOOK_MS);
    },
    close: stop,
  };
}
