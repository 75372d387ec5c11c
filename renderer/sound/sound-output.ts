import { buildSoundGraph, type SoundGraph } from './sound-graph.ts';
import type { SoundParameters } from './sound-of.ts';

/** Time for what still sounds to fade before the machine's sound is let go of, ms. */
const FADE_OUT_MS = 400;

/** The page's one way to the loudspeaker. Nothing of it exists before a person has pressed something. */
export interface SoundOutput {
  /** 'none' where the machine gives no sound out. */
  readonly state: 'waiting' | 'sounding' | 'none';
  /** To be called where a person has just pressed something, or has done so on this page before. */
  wake(): void;
  apply(sound: Readonly<SoundParameters>): void;
  hush(): void;
  setVolume(level: number): void;
  /** Nobody listens any more: fades, then costs nothing. */
  rest(): void;
  onState(listener: () => void): () => void;
}

function createSoundOutput(): SoundOutput {
  const listeners = new Set<() => void>();
  let state: SoundOutput['state'] = 'waiting';
  let context: AudioContext | null = null;
  let graph: SoundGraph | null = null;
  let volume = 0;
  let resting: ReturnType<typeof setTimeout> | null = null;

  function becomes(next: SoundOutput['state']): void {
    if (next === state) return;
    state = next;
    for (const listener of listeners) listener();
  }

  function open(): AudioContext | null {
    if (context !== null || state === 'none') return context;
    try {
      context = new AudioContext({ latencyHint: 'interactive' });
      graph = buildSoundGraph(context);
      graph.setVolume(volume, context.currentTime);
      context.onstatechange = () => becomes(context?.state === 'running' ? 'sounding' : 'waiting');
    } catch {
      // No sound card, or none for this page: the bench goes on without, and says so in the settings.
      becomes('none');
    }
    return context;
  }

  return {
    get state() {
      return state;
    },
    wake() {
      if (resting !== null) clearTimeout(resting);
      resting = null;
      const opened = open();
      if (opened?.state === 'suspended') opened.resume().catch(() => becomes('none'));
    },
    apply(sound) {
      if (context !== null && state === 'sounding') graph?.apply(sound, context.currentTime);
    },
    hush() {
      if (context !== null) graph?.hush(context.currentTime);
    },
    setVolume(level) {
      volume = level;
      if (context !== null) graph?.setVolume(level, context.currentTime);
    },
    rest() {
      this.hush();
      if (resting !== null) clearTimeout(resting);
      resting = setTimeout(() => void context?.suspend(), FADE_OUT_MS);
    },
    onState(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

export const soundOutput: SoundOutput = createSoundOutput();
