import type { TakenDrill } from '../../electron/contract.ts';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import type { IncomingRow } from './incoming-drills.ts';

/** What is here already under the id of a drill, or why it cannot be read. */
export function hereWords(row: IncomingRow): string {
  if (row.kind === 'wrong') return row.reason === null ? '–' : inEnglish(row.reason);
  return row.here ?? say('packs.here.nothing');
}

/** What the button does. */
export function takeWords(count: number): string {
  if (count === 0) return say('packs.take.none');
  return count === 1 ? say('packs.take.one') : say('packs.take.many', { count });
}

/** What became of a drill that came in, and of the run that shows how it is cut. */
export function takenWords(row: IncomingRow, taken: TakenDrill | undefined): string {
  if (taken === undefined) return row.kind === 'wrong' ? say('packs.became.wrong') : say('packs.became.left');
  const became =
    taken.choice === 'keep-both' ? say('packs.became.keep-both', { id: taken.id }) : say(`packs.became.${taken.choice}`);
  if (taken.demonstration === 'kept') return `${became} ${say('packs.became.demonstration')}`;
  if (taken.demonstration === 'wrong')
    return `${became} ${say('packs.became.demonstration-wrong', { reason: taken.reason === null ? '–' : inEnglish(taken.reason) })}`;
  return row.hasDemonstration ? `${became} ${say('packs.became.demonstration-left')}` : became;
}
