import { type Due, type DueDrill, isDone } from './next-practice.ts';

/**
 * How a sheet of what is due stands: 'open' asks for a cut that is still possible; 'waits' does not, but something handed in waits for
 * a decision; 'done' is passed throughout; 'closed' is not, and no attempt is left.
 */
export type DueStanding = 'open' | 'waits' | 'done' | 'closed';

/** No attempt left, or handed in and not sent back. */
export function isClosed({ left, submittedRunId, decision }: DueDrill): boolean {
  return left === 0 || (submittedRunId !== null && decision !== 'not-yet-competent');
}

export function dueStanding({ drills }: Due): DueStanding {
  const asked = drills.filter((drill) => !isDone(drill));
  if (asked.some((drill) => !isClosed(drill))) return 'open';
  if (drills.some(({ submittedRunId, decision }) => submittedRunId !== null && decision === null)) return 'waits';
  return asked.length === 0 ? 'done' : 'closed';
}
