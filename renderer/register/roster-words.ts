import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import type { RosterPreview, RosterRow } from './RosterDialog.tsx';

/** Whom a row means; of one that cannot be taken its own cells. */
export function personWords(row: RosterRow): string {
  if (row.kind === 'wrong') return Object.values(row.cells).filter(Boolean).join(' ');
  return `${say(`role.${row.person.role}`)} ${String(row.person.number).padStart(2, '0')}`;
}

function groupNames(groups: readonly string[]): string {
  return groups.length === 0 ? say('people.no-group') : groups.join(', ');
}

/** What would change, or why nothing can. */
export function groupsWords(row: RosterRow): string {
  if (row.kind === 'wrong') return inEnglish(row.reason);
  const after = groupNames(row.person.groups);
  return row.kind === 'changed' ? say('roster.was', { after, before: groupNames(row.before) }) : after;
}

/** What the button does. */
export function changesWords({ counts }: RosterPreview): string {
  if (counts.new > 0 && counts.changed > 0) return say('roster.take.both', { added: counts.new, changed: counts.changed });
  if (counts.new > 0) return say('roster.take.new', { added: counts.new });
  return counts.changed > 0 ? say('roster.take.changed', { changed: counts.changed }) : say('roster.take');
}
