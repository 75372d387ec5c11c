import type { LedgerEntry } from '../contract.ts';

/**
 * Entries as they may be shown to `readerId`. What an assessor said of a run in a moderation set is told by the set itself, once
 * both are through; until then nobody else may read it out of the ledger either, or the second judgement would not be blind.
 */
export function blindEntries(entries: readonly LedgerEntry[], readerId: string): LedgerEntry[] {
  return entries.map((entry) => {
    const isJudgement = entry.kind === 'moderation' && entry.body.change === 'judged';
    if (!isJudgement || entry.who === readerId) return entry;
    const { change, runId } = entry.body;
    return { ...entry, body: { change, runId } };
  });
}
