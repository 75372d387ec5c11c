import { z } from 'zod';
import { count, drillIdSchema as drillId, sha256Hex as hash, id as runId, shortText, timeIso } from './values.ts';

/** One thing that keeps a drill from being cut: JSON path and sentence. */
export const drillProblemSchema = z.strictObject({ path: z.string().max(400), sentence: z.string().min(1).max(2000) });

/** One version of a drill. Its `hash` names it for ever: a run refers to exactly one. */
export const drillVersionSchema = z.strictObject({
  hash,
  /** 1 = the oldest. */
  number: z.int().min(1),
  title: shortText,
  /** null where it came with Kerfhand. */
  savedAt: timeIso.nullable(),
  /** The one that is cut when nobody asks for another. */
  current: z.boolean(),
  /** Runs that were cut under it. */
  runs: count,
  /** The run that shows how it is done. */
  demonstrationRunId: runId.nullable(),
});
export type DrillVersion = z.infer<typeof drillVersionSchema>;

/** Calls of the drill builder, a part of the table of verbs. */
export const drillBuilderVerbs = {
  /** Newest first. @throws 'not-found' */
  listDrillVersions: {
    request: z.strictObject({ id: drillId }),
    reply: z.strictObject({ versions: z.array(drillVersionSchema) }),
  },
  /**
   * Keeps a drill as the newest version of an own one. `replaces` is the version that the page had in front of it, null for a new
   * drill: where another one is current by now the answer is a conflict. A drill that cannot be cut is refused with every reason.
   * A `draft` is there for staff to try, in front of what is on the shelf; apprentices go on with what is there, and nobody can
   * be assigned it. Saving it again without `draft` keeps it for everybody.
   */
  saveDrill: {
    request: z.strictObject({ text: z.string().max(512 * 1024), replaces: hash.nullable(), draft: z.boolean().default(false) }),
    reply: z.discriminatedUnion('outcome', [
      z.strictObject({ outcome: z.enum(['saved', 'same']), id: drillId, hash, number: z.int().min(1) }),
      z.strictObject({ outcome: z.literal('refused'), problems: z.array(drillProblemSchema).min(1) }),
    ]),
  },
  /** The run that shows how a version is cut; null where there is none. */
  getDemonstration: {
    request: z.strictObject({ hash }),
    reply: z.strictObject({ runId: runId.nullable() }),
  },
  /** Makes a finished run that passed on exactly this version its demonstration; null takes it away (the run itself stays). */
  keepDemonstration: {
    request: z.strictObject({ hash, runId: runId.nullable() }),
    reply: z.strictObject({ demonstrationRunId: runId.nullable() }),
  },
} as const;
