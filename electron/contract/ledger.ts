import { z } from 'zod';
import { count, id, sha256Hex, shortText, timeIso } from './values.ts';

export const LEDGER_KINDS = [
  'role-change', // people added, first instructor, passphrases
  'group',
  'assignment',
  'run-submitted',
  'verdict',
  'overrule',
  'note',
  'correction',
  'moderation',
  'drill-saved',
  'import',
  'export', // what takes data of people out
  'restore',
] as const;
export type LedgerKind = (typeof LEDGER_KINDS)[number];

export const ledgerEntrySchema = z.strictObject({
  seq: z.int().min(1),
  at: timeIso,
  /** Person id; null = nobody was signed in. */
  who: id.nullable(),
  /** 'unreadable': somebody changed the records behind Kerfhand's back so that it is no entry any more; `body` holds what is there. */
  kind: z.enum([...LEDGER_KINDS, 'unreadable']),
  subject: shortText,
  body: z.record(z.string(), z.unknown()),
  digest: sha256Hex,
});
export type LedgerEntry = z.infer<typeof ledgerEntrySchema>;

export const LEDGER_VERBS = {
  /** Checks the chain of digests from the first entry to the last. `firstWrong`: the first entry that does not fit, null where the end is wrong. */
  checkLedger: {
    request: z.strictObject({}),
    reply: z.strictObject({ ok: z.boolean(), entries: count, firstWrong: count.nullable(), sentence: shortText }),
  },
  /** The audit trail, newest first; `before` = the `seq` of the last entry seen, for the next page. */
  listLedger: {
    request: z.strictObject({
      kinds: z.array(z.enum(LEDGER_KINDS)).min(1).max(LEDGER_KINDS.length).optional(),
      subject: shortText.optional(),
      /** Only what this person did; null = what was done with nobody signed in. */
      who: id.nullable().optional(),
      before: z.int().min(1).optional(),
      limit: z.int().min(1).max(500).default(100),
    }),
    reply: z.strictObject({ total: count, entries: z.array(ledgerEntrySchema) }),
  },
  /** Says what was wrong with an entry. The entry stays as it is: this is a new one that refers to it. */
  correctEntry: {
    request: z.strictObject({ seq: z.int().min(1), reason: z.string().trim().min(3).max(1000) }),
    reply: ledgerEntrySchema,
  },
} as const;
