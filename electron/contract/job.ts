import { z } from 'zod';
import { TRUSTS } from './run-record.ts';
import { count, id, sha256Hex, shortText, timeIso } from './values.ts';

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

/** A long job, as it stands. `done` of `total`: statements, bytes, or ticks of a run; both 0 before that is known. */
export const paperJobSchema = z.strictObject({
  id,
  kind: z.enum(['send-statements', 'back-up', 'check-run']),
  state: z.enum(['running', 'done', 'failed', 'stopped']),
  done: bytes,
  total: bytes,
  /** Why it failed or stopped, one sentence. */
  problem: z.string().nullable(),
  /** `conflicting`: the store has them with another content and keeps its own. */
  statements: z.strictObject({ sent: count, conflicting: count }).nullable(),
  backup: backupFactsSchema.nullable(),
  check: runCheckSchema.nullable(),
  /** Name of the file that was made. `fetch`: its bytes are to be had with `readJobFile`; else the host has put it where it was told. */
  file: z.strictObject({ fileName: shortText, fetch: z.boolean() }).nullable(),
});
export type PaperJob = z.infer<typeof paperJobSchema>;
