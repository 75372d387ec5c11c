import { z } from 'zod';
import { DECISIONS, runSummarySchema } from './run-record.ts';
import { count, drillIdSchema, finite, id, sha256Hex, shortText, timeIso } from './values.ts';

/** Most people in a group, and most that are named at once: as many as one roster has rows. Lists of them are never cut off. */
export const MOST_PEOPLE = 10_000;
const nothing = z.strictObject({});
const people = z.array(id).max(MOST_PEOPLE);
/** No sign that a roster file gives a meaning to, and accents as a roster has them. */
const groupName = z
  .string()
  .trim()
  .normalize('NFC')
  .min(1)
  .max(60)
  .regex(/^[^|\p{Cc}]*$/u, 'must be one line without |');

export const groupSchema = z.strictObject({ id, name: shortText, memberIds: z.array(id) });
export type Group = z.infer<typeof groupSchema>;

export const CUE_LEVELS = ['full', 'alternate', 'none'] as const;
/** 'mixed': the host says what comes next, so that no drill follows on itself; 'as-listed': one after the other. */
export const DRILL_ORDERS = ['mixed', 'as-listed'] as const;

export const assignmentSchema = z.strictObject({
  id,
  title: shortText,
  /** In the order of the list; each exactly the version that was assigned. */
  drills: z.array(z.strictObject({ drillId: drillIdSchema, drillHash: sha256Hex, title: shortText })),
  personIds: z.array(id),
  groupIds: z.array(id),
  dueAt: timeIso.nullable(),
  attempts: z.int().nullable(),
  cueLevel: z.enum(CUE_LEVELS).nullable(),
  order: z.enum(DRILL_ORDERS),
  createdBy: id,
  createdAt: timeIso,
  withdrawnAt: timeIso.nullable(),
});
export type Assignment = z.infer<typeof assignmentSchema>;

/** One drill of an assignment as it stands for one person. `bestScore` and `passed` are null for an undecided assessment. */
export const dueDrillSchema = z.strictObject({
  drillId: drillIdSchema,
  drillHash: sha256Hex,
  title: shortText,
  technique: shortText,
  used: count,
  /** null = as often as wanted. */
  left: count.nullable(),
  bestScore: finite.nullable(),
  passed: z.boolean().nullable(),
  submittedRunId: id.nullable(),
  decision: z.enum(DECISIONS).nullable(),
  lastAt: timeIso.nullable(),
});
export const dueSchema = z.strictObject({
  assignmentId: id,
  title: shortText,
  dueAt: timeIso.nullable(),
  cueLevel: z.enum(CUE_LEVELS).nullable(),
  order: z.enum(DRILL_ORDERS),
  drills: z.array(dueDrillSchema),
  /** What to practise now; null where nothing is left to do. */
  nextDrillHash: sha256Hex.nullable(),
});
export type Due = z.infer<typeof dueSchema>;

const queueRowSchema = z.strictObject({
  run: runSummarySchema,
  weakestMeasure: shortText.nullable(),
  /** Name of who decided. */
  decidedBy: shortText.nullable(),
});
export type QueueRow = z.infer<typeof queueRowSchema>;

const stuckSchema = z.strictObject({
  drillId: drillIdSchema,
  drillTitle: shortText,
  finished: count,
  recentScore: finite,
  measureId: shortText.nullable(),
  measureMark: finite.nullable(),
});
export const classViewSchema = z.strictObject({
  people: z.array(
    z.strictObject({
      personId: id,
      name: shortText,
      finished: count,
      drillsTried: count,
      drillsPassed: count,
      /** Mean of the recent scores of the drills that were tried. */
      recentScore: finite.nullable(),
      lastAt: timeIso.nullable(),
      /** A drill cut three times and more without a pass, the worst of them; with the measure that is lowest of late. */
      stuck: stuckSchema.nullable(),
      /** What a real shop would have spent, at the prices of the settings. */
      spent: finite,
    }),
  ),
  drills: z.array(
    z.strictObject({
      drillId: drillIdSchema,
      title: shortText,
      technique: shortText,
      people: count,
      finished: count,
      passShare: finite,
      meanScore: finite,
      worstMeasure: z.strictObject({ measureId: shortText, mark: finite }).nullable(),
    }),
  ),
  /** Practice curves: by technique, one point a week (its Monday, UTC). */
  curves: z.array(
    z.strictObject({
      technique: shortText,
      weeks: z.array(z.strictObject({ week: z.iso.date(), runs: count, meanScore: finite, passShare: finite })),
    }),
  ),
});
export type ClassView = z.infer<typeof classViewSchema>;

export const progressSchema = z.strictObject({
  /** Own curve of each technique: every finished run, oldest first; undecided assessments are left out for apprentices. */
  techniques: z.array(
    z.strictObject({
      technique: shortText,
      runs: z.array(z.strictObject({ runId: id, drillId: drillIdSchema, at: timeIso, score: finite, passed: z.boolean() })),
    }),
  ),
  /** Lowest of late first: what to work on. */
  measures: z.array(z.strictObject({ measureId: shortText, recentMark: finite, runs: count })),
});
export type Progress = z.infer<typeof progressSchema>;

export const YARD_VERBS = {
  listGroups: { request: nothing, reply: z.strictObject({ groups: z.array(groupSchema) }) },
  /** Makes a group (`groupId` null), or gives one another name and other members. */
  saveGroup: { request: z.strictObject({ groupId: id.nullable(), name: groupName, memberIds: people }), reply: groupSchema },
  /**
   * Takes a group out of the yard; its members stay. Assignments to it alone are withdrawn; one that is for others as well stays
   * for them. Runs stay, and withdrawn assignments tell of the members in its place.
   */
  deleteGroup: {
    request: z.strictObject({ groupId: id }),
    /** Ids of assignments. */
    reply: z.strictObject({ withdrawn: z.array(id), stayForOthers: z.array(id) }),
  },

  assign: {
    request: z.strictObject({
      title: shortText,
      /** Their current versions. */
      drillIds: z.array(drillIdSchema).min(1).max(50),
      personIds: people.default([]),
      groupIds: z.array(id).max(200).default([]),
      dueAt: timeIso.nullable().default(null),
      /** null = as each drill says. */
      attempts: z.int().min(1).max(999).nullable().default(null),
      cueLevel: z.enum(CUE_LEVELS).nullable().default(null),
      order: z.enum(DRILL_ORDERS).default('mixed'),
    }),
    reply: assignmentSchema,
  },
  /** Newest first, withdrawn ones too. */
  listAssignments: { request: nothing, reply: z.strictObject({ assignments: z.array(assignmentSchema) }) },
  /** Nobody is asked for it any more; runs that were cut for it stay. */
  withdrawAssignment: { request: z.strictObject({ assignmentId: id }), reply: assignmentSchema },
  /** What somebody has to do, soonest due first; apprentices ask for themselves. */
  listDue: { request: z.strictObject({ personId: id }), reply: z.strictObject({ due: z.array(dueSchema) }) },

  /** Hands an own finished run in for a decision. Once for each drill of an assignment, until an assessor decides against it. */
  submitRun: { request: z.strictObject({ runId: id }), reply: runSummarySchema },
  /** Of own runs, whether `submitRun` would take them: null, or why not, in a sentence. In the order in which they were asked for. */
  checkHandIn: {
    request: z.strictObject({ runIds: z.array(id).min(1).max(200) }),
    reply: z.strictObject({ reasons: z.array(z.strictObject({ runId: id, reason: z.string().nullable() })) }),
  },
  /** Runs that were handed in, oldest first. `measureId`: those that lost the most on this measure. */
  listQueue: {
    request: z.strictObject({
      state: z.enum(['waiting', 'decided', 'all']).default('waiting'),
      drillId: drillIdSchema.optional(),
      groupId: id.optional(),
      personId: id.optional(),
      measureId: shortText.optional(),
      limit: z.int().min(1).max(200).default(50),
      offset: count.default(0),
    }),
    reply: z.strictObject({ total: count, rows: z.array(queueRowSchema) }),
  },
  /** null = every apprentice. */
  getClassView: { request: z.strictObject({ groupId: id.nullable() }), reply: classViewSchema },
  getProgress: { request: z.strictObject({ personId: id }), reply: progressSchema },
} as const;
