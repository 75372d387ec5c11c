import { z } from 'zod';
import { handScaleSchema } from './hand-settings.ts';
import { diagnosisSchema, rigChoicesSchema } from './rig-answers.ts';
import {
  handedOutSchema,
  handSchema,
  RUN_STATES,
  runRecordSchema,
  runSummarySchema,
  runUsedSchema,
  scoreRecordSchema,
  speedGuessSchema,
  traceRecordSchema,
} from './run-record.ts';
import {
  base64,
  count,
  digestHex,
  drillIdSchema,
  finite,
  id,
  REQUEST_LIMIT_BYTES,
  seed,
  sha256Hex,
  shortText,
  ticks,
} from './values.ts';

/** Most ticks in one spool chunk: 20 s at 240 Hz, far over the usual half second, so that a page that was held up can catch up. */
const CHUNK_LIMIT_TICKS = 4800;

/** How far somebody has come with a drill: every run that was begun counts as a try; mark and pass are those of finished runs. */
const standingSchema = z.strictObject({
  drillId: drillIdSchema,
  tries: count,
  bestScore: finite.nullable(),
  passed: z.boolean(),
});
export type Standing = z.infer<typeof standingSchema>;

/** A run from its first tick to its file; the head of the contract says how one is kept. */
export const RUN_VERBS = {
  /** To be called at the first tick that counts: a run that never got a chunk holds nothing and is dropped at the next start. */
  beginRun: {
    request: z.strictObject({
      drillId: drillIdSchema,
      /** Exactly this version; without it the current one. */
      drillHash: sha256Hex.optional(),
      seed,
      personId: id.nullable(),
      hand: handSchema,
      /** Must be that of the host. */
      coreVersion: shortText,
      choices: rigChoicesSchema.nullable().default(null),
      handScale: handScaleSchema.nullable().default(null),
      /** The run counts as an attempt of this assignment, and is cut under the version of the drill that was assigned. */
      assignmentId: id.nullable().default(null),
    }),
    reply: z.strictObject({ runId: id, drillHash: sha256Hex, drillText: z.string() }),
  },
  appendToRun: {
    request: z.strictObject({
      runId: id,
      sequence: count,
      firstTick: ticks,
      tickCount: z.int().min(1).max(CHUNK_LIMIT_TICKS),
      inputs: base64(256 * 1024),
    }),
    /** On disk: `tickCount` is that of the whole run so far, `nextSequence` the next one expected. */
    reply: z.strictObject({ tickCount: ticks, nextSequence: count }),
  },
  finishRun: {
    request: z.strictObject({
      runId: id,
      tickCount: ticks,
      digests: z.array(digestHex).max(5000),
      finalDigest: digestHex,
      diagnosis: diagnosisSchema.nullable().default(null),
      score: scoreRecordSchema,
      trace: traceRecordSchema,
      used: runUsedSchema.nullable().default(null),
    }),
    /** Of an assessment, digests, marks and trace are the host's own: it cuts the run again. */
    reply: runSummarySchema,
  },
  /** How far the marking of an assessment is that is being finished; null while none is under way. */
  getMarking: {
    request: z.strictObject({ runId: id }),
    reply: z.strictObject({ marking: z.strictObject({ doneTicks: ticks, totalTicks: ticks }).nullable() }),
  },
  abandonRun: { request: z.strictObject({ runId: id }), reply: runSummarySchema },
  /** The own guess of a finished run, once. It changes no mark. */
  noteGuess: {
    request: z.strictObject({ runId: id, guess: speedGuessSchema }),
    reply: z.strictObject({ guess: speedGuessSchema }),
  },
  /** Newest first. */
  listRuns: {
    request: z.strictObject({
      personId: id.optional(),
      drillId: drillIdSchema.optional(),
      states: z.array(z.enum(RUN_STATES)).min(1).max(RUN_STATES.length).optional(),
      passed: z.boolean().optional(),
      limit: z.int().min(1).max(200).default(50),
      offset: count.default(0),
    }),
    reply: z.strictObject({ total: count, runs: z.array(runSummarySchema) }),
  },
  /** One entry for each drill that was tried; null = by anybody. */
  listStandings: {
    request: z.strictObject({ personId: id.nullable() }),
    reply: z.strictObject({ standings: z.array(standingSchema) }),
  },
  getRun: { request: z.strictObject({ runId: id }), reply: runRecordSchema },
  /**
   * A run as a run file. In Electron the host asks where and writes it ('saved' or 'cancelled'); behind the loopback address the
   * page offers `text` as a download named `fileName`. The page never names a path.
   */
  exportRun: {
    request: z.strictObject({ runId: id }),
    reply: handedOutSchema,
  },
  /** Takes in the text of a run file. 'same': this very run is here already. Whether it re-simulates is for the page to find out. */
  importRun: {
    request: z.strictObject({ text: z.string().max(REQUEST_LIMIT_BYTES) }),
    reply: z.strictObject({ run: runSummarySchema, outcome: z.enum(['added', 'same']) }),
  },
} as const;
