import { existsSync, readFileSync } from 'node:fs';
import { z } from 'zod';
import { atomicWrite } from './atomic-write.ts';

/** What a tail of no entry yet says in the place of a digest. */
const NO_DIGEST = '0'.repeat(64);

type LegibleTail = z.infer<typeof tailSchema>;
const tailSchema = z.strictObject({ seq: z.int().min(0), digest: z.string().regex(/^[0-9a-f]{64}$/) });

/**
 * What the file beside the records says: the last entry of the ledger that it was told of, `seq` 0 where entries were about to
 * come. It is written after the commit of what it tells of, so that it may lag behind the ledger, never run ahead of it. Before
 * the first entry is committed it is there, on disk: entries without it are entries whose tail was removed, whenever the process
 * or the machine ended.
 *
 * What it shows: entries cut off the end, all entries taken out, the file itself removed or changed. What it cannot show, because
 * it is no secret and lies beside the records: somebody who may write to the folder and takes the end off the ledger and writes a
 * tail to fit, makes the whole chain anew, takes out every entry and the tail too, or puts an older copy of both in their place.
 * Against these only what has left the folder stands: backups, exported runs and signed verdicts.
 */
export type LedgerTail = LegibleTail | 'missing' | 'damaged';

export function readLedgerTail(file: string): LedgerTail {
  if (!existsSync(file)) return 'missing';
  try {
    return tailSchema.parse(JSON.parse(readFileSync(file, 'utf8')));
  } catch (error) {
    if (error instanceof SyntaxError || error instanceof z.ZodError) return 'damaged';
    throw error;
  }
}

export function isLegibleTail(tail: LedgerTail): tail is LegibleTail {
  return tail !== 'missing' && tail !== 'damaged';
}

/**
 * To be called before the first entry is committed. A file that is there stays: it tells of entries that were taken out, or of
 * ones that never came.
 * @throws HostError 'disk-full' or 'read-only'
 */
export function announceEntries(file: string): void {
  if (!existsSync(file)) atomicWrite(file, tailText(0, NO_DIGEST));
}

/** Tells of an entry that is committed. @throws HostError 'disk-full' or 'read-only'; the file then stays as it was */
export function writeLedgerTail(file: string, { seq, digest }: { seq: number; digest: string }): void {
  atomicWrite(file, tailText(seq, digest));
}

function tailText(seq: number, digest: string): string {
  return `${JSON.stringify({ seq, digest })}\n`;
}
