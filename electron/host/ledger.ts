import { createHash } from 'node:crypto';
import { ledgerEntrySchema } from '../contract/ledger.ts';
import type { LedgerEntry, LedgerKind, ParsedRequest, Reply } from '../contract.ts';
import { HostError } from './host-error.ts';
import { announceEntries, isLegibleTail, type LedgerTail, readLedgerTail, writeLedgerTail } from './ledger-tail.ts';
import type { LedgerRow, RecordsDatabase } from './records-tables.ts';
import { RunQueue } from './run-queue.ts';

/** What the first entry follows on. */
const NOTHING_BEFORE = '0'.repeat(64);
/** Entries read at once while the chain is checked. */
const CHECKED_AT_ONCE = 1000;
/** A clock that is set by a little over the network is no clock that was set back, ms. */
const CLOCK_TOLERANCE_MS = 60_000;
/** `who` of what the program did by itself, or of anybody in a yard without passphrases. */
const NOBODY = '';

export interface NewEntry {
  /** Person id, null where nobody was signed in. */
  who: string | null;
  kind: LedgerKind;
  /** What it is about: the id of a run, a person, an assignment, a drill. */
  subject: string;
  body: Record<string, unknown>;
}

export interface Ledger {
  /** Where the machine's clock stands before the last entry, a sentence that says so. */
  clockBehind(): Promise<string | null>;
  /**
   * Adds an entry inside a transaction: it is there exactly if what it tells of is. Call `settle` after the commit.
   * @throws HostError 'disk-full' or 'read-only' where the first entry cannot be announced in the file beside the records
   */
  add(step: RecordsDatabase, entry: NewEntry): Promise<LedgerRow>;
  /**
   * Brings the file beside the records up to the last entry, after a commit and at every start. One that is missing beside entries
   * or does not fit them is left so: it shows that somebody was at one of the two, and new entries must not make good for that.
   */
  settle(): Promise<void>;
  check(): Promise<Reply<'checkLedger'>>;
  /** @throws HostError 'not-found' */
  correct(request: ParsedRequest<'correctEntry'>, who: string): Promise<LedgerEntry>;
  list(request: ParsedRequest<'listLedger'>): Promise<Reply<'listLedger'>>;
}

/**
 * Who did what, in the order of doing. Every entry carries the digest of the one before, so that changing or taking out an old
 * one breaks every digest after it; the last digest also stands in a file of its own, see ledger-tail.ts, so that cutting the end
 * off shows too.
 * @param tailFile null where nothing is kept
 */
export function createLedger(db: RecordsDatabase, tailFile: string | null): Ledger {
  const queue = new RunQueue();
  const last = (step: RecordsDatabase) =>
    step.selectFrom('ledger').selectAll().orderBy('seq', 'desc').limit(1).executeTakeFirst();

  const settle = () => queue.inOrder('tail', writeTail);

  async function writeTail(): Promise<void> {
    if (tailFile === null) return;
    const row = await last(db);
    const tail = readLedgerTail(tailFile);
    try {
      if (!row) announceEntries(tailFile);
      else if (isLegibleTail(tail) && tail.seq < row.seq && !(await tailProblem(tail, row.seq))) writeLedgerTail(tailFile, row);
    } catch (error) {
      // What it tells of is committed: a disk that has just become full must not make the call look refused. The next one catches up.
      if (!(error instanceof HostError)) throw error;
    }
  }

  /** What the file beside the records says against a ledger of so many entries; null = nothing. */
  async function tailProblem(tail: LedgerTail, count: number): Promise<string | null> {
    if (tail === 'damaged') return 'The file beside the records that holds the last digest of the ledger is damaged.';
    if (tail === 'missing')
      return count === 0 ? null : 'The file beside the records that holds the last digest of the ledger is missing.';
    // Entries were about to come, and a crash may have kept them from coming.
    if (tail.seq === 0) return null;
    if (count === 0) return 'The ledger is empty, but the file beside it says that it had entries: they were taken out.';
    if (tail.seq > count) {
      return `The ledger ends at entry ${count}, but the file beside it says that there were ${tail.seq}: the end was cut off.`;
    }
    const row = await db.selectFrom('ledger').select('digest').where('seq', '=', tail.seq).executeTakeFirst();
    // The file may lag behind by what was committed just before a crash; it never runs ahead.
    return row?.digest === tail.digest ? null : `Entry ${tail.seq} is not the one that the file beside the records tells of.`;
  }

  async function add(step: RecordsDatabase, { who, kind, subject, body }: NewEntry): Promise<LedgerRow> {
    const before = await last(step);
    if (!before && tailFile !== null) announceEntries(tailFile);
    const entry = {
      seq: (before?.seq ?? 0) + 1,
      at: new Date().toISOString(),
      who: who ?? NOBODY,
      kind,
      subject,
      body: JSON.stringify(body),
      previous: before?.digest ?? NOTHING_BEFORE,
    };
    const row = { ...entry, digest: entryDigest(entry) };
    await step.insertInto('ledger').values(row).execute();
    return row;
  }

  return {
    async clockBehind() {
      const before = await last(db);
      const now = new Date();
      return before && Date.parse(before.at) - now.getTime() > CLOCK_TOLERANCE_MS ? clockSentence(now, before.at) : null;
    },
    add,
    async correct({ seq, reason }, who) {
      const row = await db.transaction().execute(async (step) => {
        const wrong = await step.selectFrom('ledger').select(['subject', 'kind']).where('seq', '=', seq).executeTakeFirst();
        if (!wrong) throw new HostError('not-found', `There is no entry ${seq} in the ledger.`);
        return await add(step, {
          who,
          kind: 'correction',
          subject: wrong.subject,
          body: { corrects: seq, kind: wrong.kind, reason },
        });
      });
      await settle();
      return entryOfRow(row);
    },
    settle,
    async check() {
      let previous = NOTHING_BEFORE;
      let count = 0;
      for (;;) {
        const rows = await db
          .selectFrom('ledger')
          .selectAll()
          .where('seq', '>', count)
          .orderBy('seq')
          .limit(CHECKED_AT_ONCE)
          .execute();
        for (const row of rows) {
          const problem = entryProblem(row, count + 1, previous);
          if (problem) return { ok: false, entries: count, firstWrong: count + 1, sentence: problem };
          previous = row.digest;
          count++;
        }
        if (rows.length < CHECKED_AT_ONCE) break;
      }
      const problem = tailFile === null ? null : await tailProblem(readLedgerTail(tailFile), count);
      if (problem) return { ok: false, entries: count, firstWrong: null, sentence: problem };
      return { ok: true, entries: count, firstWrong: null, sentence: `All ${count} entries of the ledger fit.` };
    },
    async list({ kinds, subject, who, before, limit }) {
      let matching = db.selectFrom('ledger');
      if (kinds !== undefined) matching = matching.where('kind', 'in', kinds);
      if (subject !== undefined) matching = matching.where('subject', '=', subject);
      if (who !== undefined) matching = matching.where('who', '=', who ?? NOBODY);
      const { total } = await matching.select((count) => count.fn.countAll<number>().as('total')).executeTakeFirstOrThrow();
      if (before !== undefined) matching = matching.where('seq', '<', before);
      const rows = await matching.selectAll().orderBy('seq', 'desc').limit(limit).execute();
      return { total: Number(total), entries: rows.map(entryOfRow) };
    },
  };
}

function clockSentence(now: Date, before: string): string {
  const told = (iso: string) => `${iso.slice(0, 10)} ${iso.slice(11, 16)} UTC`;
  return `The clock of this machine, ${told(now.toISOString())}, is behind the last entry of the ledger, ${told(before)}. Times are kept as it tells them; entries and verdicts keep the order of doing.`;
}

/** SHA-256 over everything that the entry says and the digest before it. */
export function entryDigest({ seq, at, who, kind, subject, body, previous }: Omit<LedgerRow, 'digest'>): string {
  return createHash('sha256')
    .update(JSON.stringify([seq, at, who, kind, subject, body, previous]))
    .digest('hex');
}

function entryProblem(row: LedgerRow, expectedSeq: number, previous: string): string | null {
  if (row.seq !== expectedSeq) return `Entry ${expectedSeq} is missing: entry ${row.seq} comes next.`;
  if (row.previous !== previous) return `Entry ${row.seq} does not follow on the one before it.`;
  return entryDigest(row) === row.digest ? null : `Entry ${row.seq} was changed: its digest does not fit what it says.`;
}

function entryOfRow(row: LedgerRow): LedgerEntry {
  const { who, body, previous: _previous, ...rest } = row;
  const read = ledgerEntrySchema.safeParse({ ...rest, who: who === NOBODY ? null : who, body: bodyOf(body) });
  return read.success ? read.data : unreadableEntry(row);
}

/** What an entry says; null where that was made unreadable. */
export function bodyOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    if (error instanceof SyntaxError) return null;
    throw error;
  }
}

/** One that was changed behind the program's back still has to be shown, whatever it is now. */
function unreadableEntry(row: LedgerRow): LedgerEntry {
  const { seq, ...found } = row;
  return {
    seq,
    at: new Date(0).toISOString(),
    who: null,
    kind: 'unreadable',
    subject: 'unreadable',
    body: { found: JSON.stringify(found) },
    digest: NOTHING_BEFORE,
  };
}
