import type { Decision } from '../../electron/contract.ts';
import { say } from '../text/say.ts';

const SHAPES: Record<Decision | 'none', string> = {
  // A stamp with a stroke through it from side to side; one with a stroke that stops; an empty one.
  competent: 'M10 1a9 9 0 1 1 0 18 9 9 0 0 1 0-18zm-5.4 9.4l4 4 7-8.2-2-1.7-5.2 6-1.9-1.9z',
  'not-yet-competent': 'M10 1a9 9 0 1 1 0 18 9 9 0 0 1 0-18zM5 8.7v2.6h10V8.7z',
  none: 'M10 1a9 9 0 1 1 0 18 9 9 0 0 1 0-18zm0 2.2a6.8 6.8 0 1 0 0 13.6 6.8 6.8 0 0 0 0-13.6z',
};

/** An assessor's decision, as a shape and words; the colour only repeats them. */
export function DecisionMark({ decision }: { decision: Decision | null }) {
  const tone = decision === 'competent' ? 'passed' : decision === null ? 'other' : 'notyet';
  return (
    <span className={`state state-${tone}`} data-decision={decision ?? ''}>
      <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
        <path fill="currentColor" fillRule="evenodd" d={SHAPES[decision ?? 'none']} />
      </svg>
      {decision === null ? say('queue.waits') : say(`verdict.${decision}`)}
    </span>
  );
}
