import { create } from 'zustand';
import type { Decision } from '../../electron/contract.ts';
import { onOtherPerson, useSignedIn } from '../register/signed-in.ts';
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

/**
 * Drafts by person and run: looking at the replay or the queue in between loses nothing. Whoever signs in next at the same page sees
 * nothing of them. Passphrases are never among them.
 */
const useDrafts = create<Record<string, VerdictDraft>>(() => ({}));
onOtherPerson(() => useDrafts.setState({}, true));

const keyOf = (runId: string): string => `${useSignedIn.getState().me?.person?.id ?? ''}/${runId}`;

/** What whoever is at the page has written about a run so far. */
export function draftOf(runId: string): VerdictDraft {
  return useDrafts.getState()[keyOf(runId)] ?? NO_DRAFT;
}

export function changeDraft(runId: string, change: Partial<VerdictDraft>): void {
  useDrafts.setState({ [keyOf(runId)]: { ...draftOf(runId), ...change } });
}

export function useDraft(runId: string): [VerdictDraft, (change: Partial<VerdictDraft>) => void] {
  const draft = useDrafts(() => draftOf(runId));
  return [draft, (change) => changeDraft(runId, change)];
}

export function dropDraft(runId: string): void {
  useDrafts.setState({ [keyOf(runId)]: NO_DRAFT });
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
