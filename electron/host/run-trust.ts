import { verifyRunFile } from '../../sim-core/index.ts';
import type { RunRecord, RunTrust } from '../contract.ts';
import type { RecordsDatabase } from './records-tables.ts';
import { runFileText } from './run-exchange.ts';

/**
 * Cuts a run again from its inputs, and holds it against what the ledger says was handed in: a run whose inputs and result were
 * both exchanged comes out the same, but is not the one that was.
 */
export async function runTrust(db: RecordsDatabase, run: RunRecord): Promise<{ trust: RunTrust; sentence: string }> {
  const entry = await db
    .selectFrom('ledger')
    .select('body')
    .where('subject', '=', run.id)
    .where('kind', '=', 'run-submitted')
    .orderBy('seq', 'desc')
    .executeTakeFirst();
  if (entry) {
    const { finalDigest, drillHash } = JSON.parse(entry.body) as { finalDigest?: unknown; drillHash?: unknown };
    if (finalDigest !== run.finalDigest || drillHash !== run.drillHash)
      return { trust: 'different', sentence: 'This is not the run that was handed in: the ledger has another result for it.' };
  }
  const { verdict, reason } = verifyRunFile(runFileText(run));
  return { trust: verdict, sentence: reason };
}
