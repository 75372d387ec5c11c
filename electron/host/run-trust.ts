import { createHash } from 'node:crypto';
import type { Verification } from '../../sim-core/index.ts';
import type { RunRecord, RunTrust } from '../contract.ts';
import type { CoreTaskOptions, CoreWorkers } from './core-workers.ts';
import { bodyOf } from './ledger.ts';
import { personName } from './people.ts';
import type { RecordsDatabase } from './records-tables.ts';
import { runFileText } from './run-exchange.ts';

/** Answers kept, the newest; the same text always comes out the same. */
const MOST_KNOWN = 200;

/** What the records say of a run that the ledger says otherwise. */
export interface OffLedger {
  sentence: string;
  /** Who handed it in, by the ledger; null where that is nobody of this yard. */
  handedInBy: string | null;
}

export interface RunTrusts {
  /** Holds a run against the ledger alone; null = it fits, or was not handed in. */
  offLedger(run: RunRecord): Promise<OffLedger | null>;
  /**
   * Cuts a run again from its inputs, and holds it against what the ledger says was handed in: a run whose inputs and result were
   * both exchanged comes out the same, but is not the one that was, and one put under another name says nothing of it: neither the
   * run file nor a verdict holds whose run it is. A run of that very text that was checked since the start is
   * not cut once more.
   */
  of(run: RunRecord, options?: CoreTaskOptions): Promise<{ trust: RunTrust; sentence: string }>;
}

export function createRunTrusts(db: RecordsDatabase, core: CoreWorkers): RunTrusts {
  const known = new Map<string, Verification>();

  async function verify(text: string, options: CoreTaskOptions): Promise<Verification> {
    const digest = createHash('sha256').update(text).digest('hex');
    const before = known.get(digest);
    if (before) return before;
    const found = await core.run('verify', text, options);
    known.set(digest, found);
    const oldest = known.size > MOST_KNOWN ? known.keys().next().value : undefined;
    if (oldest !== undefined) known.delete(oldest);
    return found;
  }

  async function offLedger(run: RunRecord): Promise<OffLedger | null> {
    const entry = await db
      .selectFrom('ledger')
      .leftJoin('people', 'people.id', 'ledger.who')
      .select(['ledger.who', 'ledger.body', 'people.role', 'people.number'])
      .where('ledger.subject', '=', run.id)
      .where('ledger.kind', '=', 'run-submitted')
      .orderBy('ledger.seq', 'desc')
      .executeTakeFirst();
    if (!entry) return null;
    const { who, role, number } = entry;
    const handedInBy = role === null || number === null ? null : personName(role, number);
    const sentence = offEntry({ who, body: entry.body }, run);
    return sentence === null ? null : { sentence, handedInBy };
  }

  return {
    offLedger,
    async of(run, options = {}) {
      const off = await offLedger(run);
      if (off) return { trust: 'different', sentence: off.sentence };
      const { verdict, reason } = await verify(runFileText(run), options);
      return { trust: verdict, sentence: reason };
    },
  };
}

/**
 * Holds a run against the newest ledger entry of its being handed in.
 * @returns one sentence; null = it is the run that was handed in, and of who handed it in
 */
export function offEntry(
  { who, body }: { who: string; body: string },
  run: Pick<RunRecord, 'personId' | 'finalDigest' | 'drillHash'>,
): string | null {
  const { finalDigest, drillHash } = (bodyOf(body) ?? {}) as { finalDigest?: unknown; drillHash?: unknown };
  if (finalDigest !== run.finalDigest || drillHash !== run.drillHash)
    return 'This is not the run that was handed in: the ledger has another result for it.';
  if (who !== run.personId) return 'This is not the run of who handed it in: the ledger has another person for it.';
  return null;
}
