import { useEffect, useMemo, useRef, useSyncExternalStore } from 'react';
import { changeSettings, useYard } from '../app/yard-store.ts';
import type { RunSource } from '../scene/run-source.ts';
import { createSoundFollower } from './sound-follower.ts';
import { type SoundParameters, silence } from './sound-of.ts';
import { soundOutput } from './sound-output.ts';

/** No new moment for so long: the bench stands still, and a standing arc must not drone on, ms. */
const STALE_MS = 900;
const LOOK_MS = 150;
const MUTE_KEY = 'KeyM';
/** Where keys are letters. */
const WRITTEN_IN = 'textarea, input:not([type="range"]), [role="dialog"], [role="listbox"]';

const SILENT: Readonly<SoundParameters> = silence();

export function toggleSound(): void {
  void changeSettings({ soundOn: !useYard.getState().settings.soundOn });
}

/** What the machine's sound is up to. */
export function useSoundState(): 'waiting' | 'sounding' | 'none' {
  return useSyncExternalStore(soundOutput.onState, () => soundOutput.state);
}

/**
 * Makes a run heard: the one being cut, or a replay at its own speed; at any other it is silent. `running` is false where the
 * bench stands still. Returns how the run sounds, for the signs, whether or not it is heard.
 */
export function useSound(source: RunSource | null, running: boolean): Readonly<SoundParameters> {
  const follower = useMemo(() => (source ? createSoundFollower(source.setup) : null), [source]);
  const { soundOn, soundLevel } = useYard((state) => state.settings);
  const runs = useRef(running);
  runs.current = running;

  useEffect(() => {
    soundOutput.setVolume(soundOn ? soundLevel : 0);
    // Switched off it costs nothing.
    if (!soundOn) soundOutput.rest();
    else if (source && navigator.userActivation?.hasBeenActive) soundOutput.wake();
  }, [source, soundOn, soundLevel]);
  useEffect(() => {
    if (!running) soundOutput.hush();
  }, [running]);

  useEffect(() => {
    if (!source || !follower) return;
    const abort = new AbortController();
    const wake = () => {
      if (useYard.getState().settings.soundOn) soundOutput.wake();
    };
    // A browser lets a page sound only after a press; what led to this room may have been one.
    if (navigator.userActivation?.hasBeenActive) wake();
    for (const type of ['pointerdown', 'keydown'] as const)
      window.addEventListener(type, wake, { capture: true, signal: abort.signal });
    window.addEventListener(
      'keydown',
      (event) => {
        if (event.code !== MUTE_KEY || event.repeat || event.ctrlKey || event.metaKey || event.altKey) return;
        if (event.target instanceof Element && event.target.closest(WRITTEN_IN)) return;
        event.preventDefault();
        toggleSound();
      },
      { signal: abort.signal },
    );
    let heardMs = performance.now();
    const stop = source.onFrame(() => {
      heardMs = performance.now();
      follower.follow(source.sample, source.hand.trigger, source.tick);
      if (source.rate === 1 && runs.current) soundOutput.apply(follower.sound);
      else soundOutput.hush();
    });
    const timer = setInterval(() => {
      if (performance.now() - heardMs > STALE_MS) soundOutput.hush();
    }, LOOK_MS);
    return () => {
      abort.abort();
      clearInterval(timer);
      stop();
      soundOutput.rest();
    };
  }, [source, follower]);

  return follower?.sound ?? SILENT;
}
