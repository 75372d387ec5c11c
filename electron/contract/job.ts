import { z } from 'zod';
import { TRUSTS } from './run-record.ts';
import { count, drillIdSchema, fileName, id, sha256Hex, timeIso } from './values.ts';

const bytes = z.int().min(0);

/** What a backup says of itself. */
export const backupFactsSchema = z.strictObject({
  madeAt: timeIso,
  appVersion: z.string(),
  recordsVersion: count,
  people: count,
  runs: count,
  sha256: sha256Hex,
  bytes,
});
export type BackupFacts = z.infer<typeof backupFactsSchema>;

/** What cutting a run again came to. */
export const runCheckSchema = z.strictObject({ trust: z.enum(TRUSTS), sentence: z.string() });

/** What became of a drill of a pack that was taken in. */
export const takenDrillSchema = z.strictObject({
  choice: z.enum(['add', 'replace', 'keep-both']),
  /** Its id in the pack, and here. */
  packId: drillIdSchema,
  id: drillIdSchema,
  hash: sha256Hex,
  /** 'kept': it is here now, or one was already. 'left-out': it came with none, or the drill has another id. */
  demonstration: z.enum(['kept', 'left-out', 'wrong']),
  /** Why the demonstration is wrong. */
  reason: z.string().nullable(),
});
export type TakenDrill = z.infer<typeof takenDrillSchema>;

/**
 * A long job, as it stands. `done` of `total`: statements, bytes, runs, drills, or ticks of a run; both 0 before that is known.
 */
export const paperJobSchema = z.strictObject({
  id,
  kind: z.enum(['send-statements', 'back-up', 'check-run', 'write-table', 'write-statements', 'import-pack']),
  state: z.enum(['running', 'done', 'failed', 'stopped']),
  done: bytes,
  total: bytes,
  /** Why it failed or stopped, one sentence. */
  problem: z.string().nullable(),
  /** `conflicting`: the store has them with another content and keeps its own. */
  statements: z.strictObject({ sent: count, conflicting: count }).nullable(),
  backup: backupFactsSchema.nullable(),
  check: runCheckSchema.nullable(),
  /** Drills that were taken in; what was left as it is stands not in it. */
  taken: z.array(takenDrillSchema).nullable(),
  /** Name of the file that was made. `fetch`: its bytes are to be had with `readJobFile`; else the host has put it where it was told. */
  file: z.strictObject({ fileName, fetch: z.boolean() }).nullable(),
});
export type PaperJob = z.infer<typeof paperJobSchema>;

/** How work begins that makes a file: where the shell can ask, it asks where to put it first; otherwise see `readJobFile`. */
export const fileJobBegunSchema = z.discriminatedUnion('outcome', [
  z.strictObject({ outcome: z.literal('started'), job: paperJobSchema }),
  z.strictObject({ outcome: z.literal('cancelled') }),
]);
export type FileJobBegun = z.infer<typeof fileJobBegunSchema>;
