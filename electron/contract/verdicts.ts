import { z } from 'zod';
import { paperJobSchema } from './job.ts';
import { DECISIONS, handedOutSchema, TRUSTS } from './run-record.ts';
import { count, finite, id, sha256Hex, shortText, ticks, timeIso } from './values.ts';

const mark = finite.min(0).max(100);
const written = z.string().trim().min(3).max(2000);
/** Another mark in place of the run's own; never without a written reason, and both stay visible. */
const overruled = z.array(z.strictObject({ measureId: shortText, mark, reason: written })).max(100);
const marks = z.array(z.strictObject({ measureId: shortText, mark }));

export const verdictSchema = z.strictObject({
  id,
  runId: id,
  assessorId: id,
  assessor: shortText,
  at: timeIso,
  decision: z.enum(DECISIONS),
  reasons: z.string(),
  score: mark,
  /** The run's own. */
  marks,
  overruled,
  keyId: sha256Hex,
  /** What cutting the run again had come to when it was signed. */
  trust: z.enum(TRUSTS),
  /** Now: whether signature, key and run fit each other. Only 'fits' is good; `checkSentence` says what is wrong. */
  check: z.enum(['fits', 'other-key', 'forged', 'other-run']),
  checkSentence: z.string(),
});
export type VerdictRecord = z.infer<typeof verdictSchema>;

/** A verdict whose document was spoilt in the records: that it was given is known, and what it says is not. */
export const unreadableVerdictSchema = z.strictObject({
  id,
  assessorId: id,
  assessor: shortText,
  at: timeIso,
  check: z.literal('unreadable'),
  checkSentence: z.string(),
});
export type UnreadableVerdict = z.infer<typeof unreadableVerdictSchema>;

export const noteSchema = z.strictObject({
  id,
  runId: id,
  personId: id,
  name: shortText,
  at: timeIso,
  tick: ticks,
  text: z.string(),
});
export type Note = z.infer<typeof noteSchema>;

const share = finite.nullable();
/** How far the two agree: Cohen's kappa on decisions, intraclass correlations and limits of agreement on scores. */
export const comparisonSchema = z.strictObject({
  runs: count,
  onlyFirst: count,
  onlySecond: count,
  decisions: z.strictObject({ cases: count, observed: finite, expected: finite, kappa: share }).nullable(),
  scores: z
    .strictObject({
      targets: count,
      judges: count,
      betweenTargets: finite,
      withinTargets: finite,
      betweenJudges: finite,
      residual: finite,
      icc11: share,
      /** Absolute agreement: the one to look at. */
      icc21: share,
      icc31: share,
      icc1k: share,
      icc2k: share,
      icc3k: share,
    })
    .nullable(),
  scoreBias: z.strictObject({ pairs: count, bias: finite, deviation: share, lower: share, upper: share }).nullable(),
  /** Differing decisions first. */
  differences: z.array(
    z.strictObject({
      runId: id,
      firstDecision: z.enum(DECISIONS),
      secondDecision: z.enum(DECISIONS),
      scoreDifference: finite,
      measures: z.array(z.strictObject({ measureId: shortText, firstMark: mark, secondMark: mark })),
    }),
  ),
});

export const moderationSetSchema = z.strictObject({
  id,
  title: shortText,
  createdAt: timeIso,
  first: z.strictObject({ personId: id, name: shortText, judged: count }),
  second: z.strictObject({ personId: id, name: shortText, judged: count }),
  runs: count,
});
export type ModerationSet = z.infer<typeof moderationSetSchema>;

export const VERDICT_VERBS = {
  /**
   * Cuts the run again and holds it against what was handed in: about a hundredth of the run's own time, and seconds for a new
   * metal. `getJob` tells of it (`done` of `total` ticks, then `check`) and `stopJob` stops it at once. A run that was checked
   * since the start is not cut once more.
   */
  startCheck: { request: z.strictObject({ runId: id }), reply: paperJobSchema },
  /**
   * Decides on a run that was handed in and signs it with the assessor's key, which is made at the first signature. A later
   * verdict on the same run takes the place of the one before; both stay. Refused for a run that is different or damaged.
   */
  signVerdict: {
    request: z.strictObject({
      runId: id,
      decision: z.enum(DECISIONS),
      reasons: written,
      overruled: overruled.default([]),
      passphrase: z.string().max(200),
    }),
    reply: verdictSchema,
  },
  /** Newest first: the first one counts. Apprentices get those on their own runs. */
  listVerdicts: {
    request: z.strictObject({ runId: id }),
    reply: z.strictObject({ verdicts: z.array(z.union([verdictSchema, unreadableVerdictSchema])) }),
  },
  /** The verdict that counts as a file to go beside the run file, as `exportRun` does it. */
  exportVerdict: { request: z.strictObject({ runId: id }), reply: handedOutSchema },
  /** The key that somebody signs with now, PEM: whoever has it can check their verdicts anywhere. */
  exportPublicKey: { request: z.strictObject({ personId: id }), reply: handedOutSchema },

  addNote: { request: z.strictObject({ runId: id, tick: ticks, text: z.string().trim().min(1).max(2000) }), reply: noteSchema },
  /** In the order of the run. Apprentices get those on their own runs, on an assessment once it is decided. */
  listNotes: { request: z.strictObject({ runId: id }), reply: z.strictObject({ notes: z.array(noteSchema) }) },

  /** Two assessors judge the same finished runs; neither sees what the other said, nor an earlier verdict, until both are through. */
  makeModerationSet: {
    request: z.strictObject({ title: shortText, runIds: z.array(id).min(1).max(200), firstId: id, secondId: id }),
    reply: moderationSetSchema,
  },
  /** Newest first. Assessors get those they are in. */
  listModerationSets: { request: z.strictObject({}), reply: z.strictObject({ sets: z.array(moderationSetSchema) }) },
  /** Once a run; it cannot be taken back. */
  judgeBlind: {
    request: z.strictObject({
      setId: id,
      runId: id,
      decision: z.enum(DECISIONS),
      reasons: written,
      overruled: overruled.default([]),
    }),
    reply: z.strictObject({ judged: count, runs: count }),
  },
  getModerationSet: {
    request: z.strictObject({ setId: id }),
    reply: z.strictObject({
      set: moderationSetSchema,
      /** In the order of the set; `own`: what the asking assessor said. */
      runs: z.array(
        z.strictObject({
          runId: id,
          drillTitle: shortText,
          own: z.strictObject({ decision: z.enum(DECISIONS), score: mark }).nullable(),
          /** Who has judged it, to somebody who does not judge in the set; null to an assessor. */
          judgedBy: z.array(id).nullable(),
        }),
      ),
      /** Null until both are through. */
      comparison: comparisonSchema.nullable(),
    }),
  },
} as const;
