import type { HandSettings } from '../../electron/contract.ts';
import { ARC_STATES } from '../../sim-core/index.ts';
import { connectedPad } from '../input/gamepad-hand.ts';
import { createRumbleWatch, rumblePad } from '../input/pad-rumble.ts';
import type { WorkerRun } from './worker-run.ts';

/** Lets a pad be felt while a run is being cut; returns the way to stop. */
export function feelRun(source: WorkerRun, settings: HandSettings): () => void {
  const watch = createRumbleWatch();
  return source.onFrame(() => {
    const { sample, hand } = source;
    const { underMm3PerS, standOffMm, arcState } = sample;
    const view = { trigger: hand.trigger, onMetal: ARC_STATES[arcState] === 'transferred', underMm3PerS, standOffMm };
    const felt = watch(view, performance.now());
    if (felt !== null) rumblePad(connectedPad(navigator.getGamepads()), felt, settings);
  });
}
