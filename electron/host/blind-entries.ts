import type { LedgerEntry } from '../contract.ts';

/** Whom the ledger is shown to, and what is not told yet. */
export interface BlindReader {
  id: string;
  /** Runs that the reader still has to judge blind, see `Moderation`. */
  blindRuns: ReadonlySet<string>;
  /** Moderation sets that are not through. */
  openSets: ReadonlySet<string>;
}

/** What any entry may still say: what it is about, and not what somebody thinks of it. */
const STILL_TOLD = ['change', 'runId', 'verdictId', 'replaces', 'noteId', 'corrects', 'kind'];

/**
 * Entries as they may be shown to a reader. What an assessor said of a run in a moderation set is told by the set itself, once
 * both are through; until then nobody else may read it out of the ledger either, or the second judgement would not be blind. Nor
 * may who still has to judge a run read there what others said of it before.
 */
export function blindEntries(entries: readonly LedgerEntry[], reader: BlindReader): LedgerEntry[] {
  return entries.map((entry) => (entry.who === reader.id || isTold(entry, reader) ? entry : reduced(entry)));
}

function isTold({ kind, subject, body }: LedgerEntry, { blindRuns, openSets }: BlindReader): boolean {
  switch (kind) {
    case 'verdict':
    case 'overrule':
    case 'note':
      return !blindRuns.has(subject);
    case 'correction':
      return !blindRuns.has(subject) && !openSets.has(subject);
    case 'moderation':
      return body.change !== 'judged' || !(openSets.has(subject) || blindRuns.has(String(body.runId)));
    default:
      return true;
  }
}

function reduced(entry: LedgerEntry): LedgerEntry {
  return { ...entry, body: Object.fromEntries(Object.entries(entry.body).filter(([name]) => STILL_TOLD.includes(name))) };
}
