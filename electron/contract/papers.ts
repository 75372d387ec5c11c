import { z } from 'zod';
import { backupFactsSchema, fileJobBegunSchema, paperJobSchema } from './job.ts';
import { handedOutSchema } from './run-record.ts';
import { base64, drillIdSchema, fileName, id, sha256Hex, shortText, timeIso } from './values.ts';

/** Most bytes of a file in one call, either way: base64 and JSON around them stay below the limit of a request. */
export const FILE_PIECE_LIMIT_BYTES = 8 * 1024 * 1024;
const PICTURE_LIMIT_CHARS = 6 * 1024 * 1024;
const PACK_LIMIT_CHARS = 24 * 1024 * 1024;
const bytes = z.int().min(0);

/** Which runs; what is left out does not narrow. `measureId`: those that lost the most on this measure. */
const runChoiceShape = {
  runIds: z.array(id).min(1).max(10_000).optional(),
  personId: id.optional(),
  groupId: id.optional(),
  drillId: drillIdSchema.optional(),
  measureId: shortText.optional(),
  /** As the queue has it: only runs that were handed in. */
  handedIn: z.enum(['waiting', 'decided', 'all']).optional(),
};
export const runChoiceSchema = z.strictObject(runChoiceShape);
export type RunChoice = z.infer<typeof runChoiceSchema>;

/** As `handedOutSchema`, for a file that is no text: behind the loopback address the page offers the bytes as a download. */
const handedOutBytesSchema = z.discriminatedUnion('outcome', [
  z.strictObject({ outcome: z.literal('saved'), fileName }),
  z.strictObject({ outcome: z.literal('cancelled') }),
  z.strictObject({ outcome: z.literal('bytes'), fileName, bytes: z.base64() }),
]);

/** Address that stands for the yard in statements; it need not answer. */
const homePage = z.string().min(1).max(200);

export const PACK_CHOICES = ['add', 'replace', 'keep-both', 'leave'] as const;
export const packPreviewSchema = z.strictObject({
  title: z.string(),
  about: z.string(),
  madeAt: timeIso,
  rows: z.array(
    z.strictObject({
      kind: z.enum(['new', 'same', 'newer', 'older', 'clash', 'shipped', 'wrong']),
      id: z.string(),
      title: z.string(),
      hash: sha256Hex.nullable(),
      hasDemonstration: z.boolean(),
      /** Title of the drill that has this id here. */
      here: z.string().nullable(),
      /** Why it is wrong. */
      reason: z.string().nullable(),
      /** What may be done with it; the first is what happens where nothing is chosen. */
      choices: z.array(z.enum(PACK_CHOICES)),
    }),
  ),
});
export type PackPreview = z.infer<typeof packPreviewSchema>;

const ofJob = z.strictObject({ jobId: id });

export const PAPER_VERBS = {
  /** Oldest run first. 'measures': one row for each measure of each run. */
  exportRunsCsv: {
    request: z.strictObject({ table: z.enum(['runs', 'measures']), ...runChoiceShape }),
    reply: fileJobBegunSchema,
  },
  /** PDF of one page. Apprentices get that of an own run once it is decided. Pictures are PNG as data URLs. */
  exportRunReport: {
    request: z.strictObject({
      runId: id,
      /** Printed at the head of the page; empty: the name in the settings. */
      yardName: z.string().trim().max(80).default(''),
      pictures: z
        .array(
          z.strictObject({
            caption: z.string().trim().max(120),
            png: z
              .string()
              .max(PICTURE_LIMIT_CHARS)
              .regex(/^data:image\/png;base64,[A-Za-z0-9+/]+={0,2}$/),
          }),
        )
        .max(2)
        .default([]),
      units: z.enum(['metric', 'inch']).default('metric'),
    }),
    reply: handedOutBytesSchema,
  },

  /** Closed runs of people as xAPI statements in one JSON file. */
  exportStatements: { request: z.strictObject({ homePage, ...runChoiceShape }), reply: fileJobBegunSchema },
  /** The same to a learning-record store. Ids are stable, so sending again is harmless. The password is kept nowhere. */
  sendStatements: {
    request: z.strictObject({
      homePage,
      /** https, or http on this very machine; `statements` is added to it. */
      endpoint: z.string().min(1).max(500),
      user: z.string().max(200),
      password: z.string().max(500),
      ...runChoiceShape,
    }),
    reply: paperJobSchema,
  },

  /** Current versions, with what came before them and the run that shows how each is cut. */
  exportPack: {
    request: z.strictObject({
      title: z.string().trim().min(1).max(120),
      about: z.string().trim().max(1200).default(''),
      drillIds: z.array(drillIdSchema).min(1).max(200),
    }),
    reply: handedOutSchema,
  },
  /** Writes nothing. */
  previewPack: { request: z.strictObject({ text: z.string().max(PACK_LIMIT_CHARS) }), reply: packPreviewSchema },
  /** Drills all or none, by the choices for their ids; what has none goes by the first choice of its row. */
  importPack: {
    request: z.strictObject({
      text: z.string().max(PACK_LIMIT_CHARS),
      choices: z.record(drillIdSchema, z.enum(PACK_CHOICES)).default({}),
    }),
    /** Stopped before the drills are written, it leaves nothing; `total` are the drills to be taken in. */
    reply: paperJobSchema,
  },

  /** One at a time. */
  backUp: { request: z.strictObject({}), reply: fileJobBegunSchema },
  /** A backup comes in piece by piece: `uploadId` null and offset 0 begin one, and let go of an earlier one. */
  addToBackup: {
    request: z.strictObject({ uploadId: id.nullable(), offset: bytes, piece: base64(FILE_PIECE_LIMIT_BYTES) }),
    /** `received`: bytes so far = the next offset. */
    reply: z.strictObject({ uploadId: id, received: bytes }),
  },
  /** Reads what came in from end to end, checks its digests, and says what is in it. Changes nothing. */
  inspectBackup: { request: z.strictObject({ uploadId: id }), reply: backupFactsSchema },

  /**
   * Lets a backup that came in wait for the next start of Kerfhand, which puts it in the place of the records; those of now are
   * then kept aside. Takes the passphrase of who asks. A notice of the session says what became of it, the ledger as well.
   */
  restoreAtNextStart: {
    request: z.strictObject({ uploadId: id, passphrase: z.string().max(200) }),
    reply: backupFactsSchema,
  },
  /** What waits for the next start; null = nothing. */
  getWaitingRestore: {
    request: z.strictObject({}),
    reply: z.strictObject({ waiting: z.strictObject({ askedBy: z.string(), backup: backupFactsSchema }).nullable() }),
  },
  withdrawRestore: { request: z.strictObject({}), reply: z.strictObject({}) },

  /** Only whoever began a job is told of it. To be asked about twice a second. */
  getJob: { request: ofJob, reply: paperJobSchema },
  /** The reply still says 'running' where the job has not yet noticed. What is done is not stopped. */
  stopJob: { request: ofJob, reply: paperJobSchema },
  /**
   * The next piece of the file that a job has made; a later one of that kind for the same person takes its place. `nextOffset`
   * null = that was the last one.
   */
  readJobFile: {
    request: z.strictObject({ jobId: id, offset: bytes }),
    reply: z.strictObject({ piece: z.base64(), total: bytes, nextOffset: bytes.nullable() }),
  },
} as const;
