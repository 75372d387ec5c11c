import type { Person } from '../../electron/contract.ts';
import { type ReviewedRun, UNKEPT_RUN_ID } from './fresh-run.ts';

export type ReviewTab = 'marks' | 'face' | 'cost' | 'notes' | 'verdict';

/** Tabs by who looks: notes and verdict belong to a run that is kept, and a blind judgement shows nobody else's. */
export function reviewTabs(run: ReviewedRun, me: Person | null, blind: boolean): ReviewTab[] {
  const tabs: ReviewTab[] = ['marks', 'face', 'cost'];
  if (run.id === UNKEPT_RUN_ID || me === null) return tabs;
  if (blind) return [...tabs, 'verdict'];
  const decides = me.role !== 'apprentice' || run.handedInAt != null;
  return decides ? [...tabs, 'notes', 'verdict'] : [...tabs, 'notes'];
}
