import type { RunState } from '../../electron/contract.ts';
import { say } from '../text/say.ts';

export type Outcome = 'passed' | 'not-yet' | Exclude<RunState, 'finished'>;

const SHAPES: Record<'passed' | 'not-yet' | 'other', string> = {
  // A sheet cut right through; a sheet with a cut that stops; an empty sheet.
  passed: 'M2 3h5.2L5 17H2zM10.4 3H18v14H8.2z',
  'not-yet': 'M2 3h6.4L7.2 9.5h2.6L11 3h7v14H2z',
  other: 'M2 3h16v14H2zm2 2v10h12V5z',
};

/** How a run came out, as a shape and a word; the colour only repeats it. */
export function StateMark({ outcome }: { outcome: Outcome }) {
  const shape = outcome === 'passed' || outcome === 'not-yet' ? outcome : 'other';
  const tone = shape === 'passed' ? 'passed' : shape === 'not-yet' ? 'notyet' : 'other';
  return (
    <span className={`state state-${tone}`}>
      <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
        <path fill="currentColor" fillRule="evenodd" d={SHAPES[shape]} />
      </svg>
      {say(`state.${outcome}`)}
    </span>
  );
}
