import { create } from 'zustand';
import type { Decision } from '../../electron/contract.ts';
import { measureName } from '../review/score-words.ts';
import { say } from '../text/say.ts';
import type { Trust } from './use-trust.ts';

/** Shortest reason that is one, as the host takes them. */
const LEAST_LETTERS = 3;

export interface Overruling {
  measureId: string;
  /** 0 to 100. */
  mark: number;
  reason: string;
}

/** A verdict while it is being written. */
export interface VerdictDraft {
  decision: Decision | null;
  reasons: string;
  overruled: readonly Overruling[];
}

export const NO_DRAFT: VerdictDraft = { decision: null, reasons: '', overruled: [] };

/** Drafts by run: looking at the replay or the queue in between loses nothing. Passphrases are never among them. */
const useDrafts = create<Record<string, VerdictDraft>>(() => ({}));

export function useDraft(runId: string): [VerdictDraft, (change: Partial<VerdictDraft>) => void] {
  const draft = useDrafts((drafts) => drafts[runId] ?? NO_DRAFT);
  return [draft, (change) => useDrafts.setState((drafts) => ({ [runId]: { ...(drafts[runId] ?? NO_DRAFT), ...change } }))];
}

export function dropDraft(runId: string): void {
  useDrafts.setState({ [runId]: NO_DRAFT });
}

/** The draft with another mark for a measure; null takes the run's own again. */
export function overrule(draft: VerdictDraft, measureId: string, change: Partial<Overruling> | null): readonly Overruling[] {
  const others = draft.overruled.filter((one) => one.measureId !== measureId);
  if (change === null) return others;
  const known = draft.overruled.find((one) => one.measureId === measureId);
  return [...others, { measureId, mark: 0, reason: '', ...known, ...change }];
}

/** What still keeps a verdict from being given, each in one sentence; `passphrase` is null where none is asked for. */
export function missingFrom(draft: VerdictDraft, passphrase: string | null, trust: Trust['state']): string[] {
  const missing: string[] = [];
  if (trust === 'checking' || trust === 'stopped') missing.push(say(`verdict.needs.${trust}`));
  if (trust === 'different' || trust === 'damaged') missing.push(say('verdict.needs.trust', { trust: say(`trust.${trust}`) }));
  if (draft.decision === null) missing.push(say('verdict.needs.decision'));
  if (draft.reasons.trim().length < LEAST_LETTERS) missing.push(say('verdict.needs.reasons'));
  for (const { measureId, reason } of draft.overruled)
    if (reason.trim().length < LEAST_LETTERS) missing.push(say('verdict.needs.overrule', { measure: measureName(measureId) }));
  if (passphrase === '') missing.push(say('verdict.needs.passphrase'));
  return missing;
}
