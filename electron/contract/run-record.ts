import { z } from 'zod';
import { handScaleSchema } from './hand-settings.ts';
import { diagnosisSchema, rigChoicesSchema } from './rig-answers.ts';
import { base64, digestHex, drillIdSchema, fileName, finite, id, seed, sha256Hex, shortText, ticks, timeIso } from './values.ts';

/**
 * 'open': being cut now. 'finished': closed with digests, score and trace. 'unfinished': the page or the machine went away.
 * 'abandoned': the person gave it up. Inputs up to the last acknowledged chunk are kept in every state.
 */
export const RUN_STATES = ['open', 'finished', 'unfinished', 'abandoned'] as const;
export type RunState = (typeof RUN_STATES)[number];

/** What moved the torch: a person at a device, or a synthetic hand by its name. */
export const handSchema = z.strictObject({ kind: z.enum(['mouse', 'keyboard', 'gamepad', 'pen', 'script']), name: shortText });
export type Hand = z.infer<typeof handSchema>;

/**
 * The score of sim-core as it is kept. The named parts are what lists need; the whole of it is kept as given. What else is in it
 * depends on the core that gave it: compare `coreVersion` before reading it as a `Score`.
 */
export type ScoreRecord = { score: number; passed: boolean; measures: { id: string; mark: number; weight: number }[] };
export const scoreRecordSchema: z.ZodType<ScoreRecord, ScoreRecord> = z.looseObject({
  score: finite.min(0).max(100),
  passed: z.boolean(),
  measures: z.array(z.looseObject({ id: shortText, mark: finite, weight: finite })).max(100),
});

/** Stored samples: little-endian Float32 columns one after another, in the order of `fields`, each of the same length. */
export const traceRecordSchema = z.strictObject({
  hz: finite.min(1).max(240),
  fields: z.array(shortText).min(1).max(64),
  columns: base64(12 * 1024 * 1024),
});
export type TraceRecord = z.infer<typeof traceRecordSchema>;

/** What somebody takes their own speed to have been; the same words say what it was. */
export const SPEED_GUESSES = ['too-slow', 'right', 'too-fast'] as const;
export const speedGuessSchema = z.enum(SPEED_GUESSES);
export type SpeedGuess = z.infer<typeof speedGuessSchema>;

export const DECISIONS = ['competent', 'not-yet-competent'] as const;
export type Decision = (typeof DECISIONS)[number];

/** What a run used up: torch parts in shares of a new one. For the bill of a class. */
export const runUsedSchema = z.strictObject({
  electrode: finite.min(0).max(100),
  nozzle: finite.min(0).max(100),
  shield: finite.min(0).max(100),
  plateKg: finite.min(0).max(1000),
  gasM3: finite.min(0).max(1000),
  minutes: finite.min(0).max(1000),
});
export type RunUsed = z.infer<typeof runUsedSchema>;

const runSummaryShape = {
  id,
  state: z.enum(RUN_STATES),
  /** 'here': cut in this installation. 'imported': came in as a run file. */
  source: z.enum(['here', 'imported']),
  personId: id.nullable(),
  personName: shortText.nullable(),
  drillId: drillIdSchema,
  drillHash: sha256Hex,
  drillTitle: shortText,
  seed,
  hand: handSchema,
  coreVersion: shortText,
  beganAt: timeIso,
  endedAt: timeIso.nullable(),
  /** Ticks of input that are on disk. */
  tickCount: ticks,
  score: finite.nullable(),
  passed: z.boolean().nullable(),
  /**
   * Only where the run was cut under an assignment, is an assessment, or was handed in. `sealed`: until there is a decision an
   * apprentice gets null for score, passed and scoreRecord, and a drill without the weights of its measures.
   */
  assessment: z
    .strictObject({
      sealed: z.boolean(),
      assignmentId: id.nullable(),
      submittedAt: timeIso.nullable(),
      decision: z.enum(DECISIONS).nullable(),
      decidedAt: timeIso.nullable(),
    })
    .optional(),
};
export const runSummarySchema = z.strictObject(runSummaryShape);
export type RunSummary = z.infer<typeof runSummarySchema>;

/**
 * A whole run. `inputs` is one `encodeHandLog` of all ticks. Digests, score and trace are null unless the run was finished. An
 * apprentice who looks at somebody else's run of an assessment, its demonstration, gets no scoreRecord and a drill without weights.
 */
export const runRecordSchema = z.strictObject({
  ...runSummaryShape,
  drillText: z.string(),
  inputs: z.base64(),
  /** Null where the rig stood ready. */
  choices: rigChoicesSchema.nullable(),
  /** How the hand was measured before the run; null where it was not. */
  handScale: handScaleSchema.nullable(),
  /** Said before any mark, and no part of one. Null where nothing was asked, or nothing was answered. */
  speedGuess: speedGuessSchema.nullable(),
  /** Null where nothing was asked, or nothing was answered. */
  diagnosis: diagnosisSchema.nullable(),
  digests: z.array(digestHex).nullable(),
  finalDigest: digestHex.nullable(),
  scoreRecord: scoreRecordSchema.nullable(),
  trace: traceRecordSchema.nullable(),
});
export type RunRecord = z.infer<typeof runRecordSchema>;

/**
 * A file that was handed out: in Electron the host asks where and writes it; behind the loopback address the page offers `text` as
 * a download. The page never names a path.
 */
export const handedOutSchema = z.discriminatedUnion('outcome', [
  z.strictObject({ outcome: z.literal('saved'), fileName }),
  z.strictObject({ outcome: z.literal('cancelled') }),
  z.strictObject({ outcome: z.literal('text'), fileName, text: z.string() }),
]);

/** A run cut again from its inputs: comes out the same, different, was made by another core, or is not whole. */
export const TRUSTS = ['same', 'different', 'other-core', 'damaged'] as const;
export type RunTrust = (typeof TRUSTS)[number];
