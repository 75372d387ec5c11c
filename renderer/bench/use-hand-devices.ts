import { type RefObject, useEffect, useState } from 'react';
import { tellWords } from '../app/yard-store.ts';
import { attachHand } from '../input/attach-hand.ts';
import type { EyeMove } from '../input/eye-place.ts';
import type { SceneHandle } from '../scene/scene-handle.ts';
import { say } from '../text/say.ts';
import type { AtWork } from './at-work.ts';
import { feelRun } from './feel-run.ts';
import type { WorkerRun } from './worker-run.ts';

const FIRST_SET_SPEED_MM_PER_S = 10;

export interface HandDevices {
  setSpeedMmPerS: number;
  padReady: boolean;
}

export interface DeviceEvents {
  end(): void;
  /** Nobody looks at the page any more. */
  hold(): void;
  onEye(move: EyeMove, byMm: number): void;
}

/**
 * Mouse, pen, keys and gamepad at the stage, for the run in `work`.
 * @param source null while nothing is being cut
 */
export function useHandDevices(
  work: RefObject<AtWork | null>,
  source: WorkerRun | null,
  stage: RefObject<HTMLElement | null>,
  scene: SceneHandle,
  { end, hold, onEye }: DeviceEvents,
): HandDevices {
  const [setSpeedMmPerS, setSetSpeed] = useState(FIRST_SET_SPEED_MM_PER_S);
  const [padReady, setPadReady] = useState(false);
  // Devices are listened to once the stage stands.
  useEffect(() => {
    const at = work.current;
    const element = stage.current;
    if (!at || !element || !source) return;
    const onPad = (connected: boolean) => {
      setPadReady(connected);
      if (!connected) tellWords(say('bench.pad-gone'));
    };
    const attached = attachHand(
      element,
      at.hand,
      (x, y, height) => scene.handFromScreen(x, y, height),
      FIRST_SET_SPEED_MM_PER_S,
      at.setup,
      { onEnd: end, onSetSpeed: setSetSpeed, onPad, onEye, onLockRefused: () => tellWords(say('hand.lock-refused')) },
    );
    const stopRumble = feelRun(source, at.setup.settings);
    const onHidden = () => {
      if (document.visibilityState === 'hidden') hold();
    };
    document.addEventListener('visibilitychange', onHidden);
    at.letGo = attached.letGoAll;
    at.detach = () => {
      attached.detach();
      stopRumble();
      document.removeEventListener('visibilitychange', onHidden);
    };
    element.focus({ preventScroll: true });
    return () => at.detach();
  }, [work, source, stage, scene, end, hold, onEye]);
  return { setSpeedMmPerS, padReady };
}
