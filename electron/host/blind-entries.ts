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
 * may who still has to judge a run read there what others said of it before. Nor is what was made unreadable told in the raw.
 */
export function blindEntries(entries: readonly LedgerEntry[], reader: BlindReader): LedgerEntry[] {
  return entries.map((entry) => {
    if (entry.kind === 'unreadable') return mayTellOfBlind(entry, reader) ? withheld(entry) : entry;
    return entry.who === reader.id || isTold(entry, reader) ? entry : reduced(entry);
  });
}

/**
 * What is left of an unreadable entry may be a judgement, and of which run can no longer be relied on: a reader who has any run
 * left to judge blind is told none of it, and nobody what names a set that is not through.
 */
function mayTellOfBlind({ body }: LedgerEntry, { blindRuns, openSets }: BlindReader): boolean {
  const found = String(body.found);
  return blindRuns.size > 0 || [...openSets].some((set) => found.includes(set));
}

function withheld(entry: LedgerEntry): LedgerEntry {
  return {
    ...entry,
    body: {
      withheld: 'What is left of this entry may tell of a blind judgement; it is shown once the moderation set is through.',
    },
  };
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
