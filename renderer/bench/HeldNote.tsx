import { say } from '../text/say.ts';

/**
 * How the halted bench goes on: by movement. A press on the plate pulls the trigger, save where it takes the pointer of a measured
 * mouse.
 */
export function HeldNote({ oneToOne, pointerHeld }: { oneToOne: boolean; pointerHeld: boolean }) {
  return (
    <p className="bench-held" role="status">
      <strong>{say('bench.held')}.</strong> {say(oneToOne && !pointerHeld ? 'bench.held-hint.take' : 'bench.held-hint')}
    </p>
  );
}
