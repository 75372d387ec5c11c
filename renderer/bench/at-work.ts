import type { RigChoices } from '../../sim-core/index.ts';
import type { HandController } from '../input/hand-controller.ts';
import type { HandSetup } from '../input/hand-setup.ts';
import type { RunRecorder } from './run-recorder.ts';

/** The run that is being cut, from the hand that cuts it to its recorder. */
export interface AtWork {
  hand: HandController;
  setup: HandSetup;
  recorder: RunRecorder;
  seed: number;
  choices: RigChoices | null;
  /** Whatever is pressed counts as let go; page clock, ms. */
  letGo(atMs: number): void;
  detach(): void;
}
