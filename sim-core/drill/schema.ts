import { z } from 'zod';
import { CAUTION_IDS } from './caution-ids.ts';
import { RIG_FAULT_IDS } from './diagnosis.ts';
import { plateSchema, pointSchema } from './plate-schema.ts';
import { PLAIN_SITE, rigSchema, siteSchema } from './rig-schema.ts';
import { rubricSchema } from './rubric-schema.ts';
import { bandSchema, tolerancesSchema } from './tolerances-schema.ts';

export const DRILL_FORMAT = 'kerfhand-drill';

/** The version written today. Older files are brought up to it by the named steps of migrations.ts. */
export const DRILL_FORMAT_VERSION = 2;

/** Labels for people, to find drills by and to follow progress; neither the physics nor the marks ever look at them. */
export const TECHNIQUES = [
  'edge-start',
  'pierce',
  'cut-out',
  'finish',
  'bevel',
  'mesh',
  'stacked',
  'gouge',
  'mark',
  'guide',
  'rig-check',
  'fault-finding',
  'assessment',
] as const;
export type Technique = (typeof TECHNIQUES)[number];

const line = (max: number) => z.string().trim().min(1).max(max);

const cardSchema = z.strictObject({
  /** Where the part belongs and what the drill is good for. */
  purpose: line(600),
  /** What to do, in the order of doing it. */
  task: line(1200),
  /** What to watch and listen for. */
  hints: z.array(line(300)).max(8),
  /** Dangers of the real work that this drill touches; the page holds their texts and published figures. */
  cautions: z.array(z.enum(CAUTION_IDS)).min(1).max(CAUTION_IDS.length),
  /** What governs before anybody does this on real plate. */
  onRealPlate: line(600),
});

const lineSegmentSchema = z.strictObject({ kind: z.literal('line'), to: pointSchema });

const arcSegmentSchema = z.strictObject({
  kind: z.literal('arc'),
  centre: pointSchema,
  /** Turn about the centre from where the segment begins; positive = anticlockwise seen from above. */
  sweepDeg: z
    .number()
    .min(-360)
    .max(360)
    .refine((deg) => deg >= 1 || deg <= -1, 'must turn at least 1 degree'),
});

const pathSchema = z.strictObject({
  start: pointSchema,
  segments: z
    .array(z.discriminatedUnion('kind', [lineSegmentSchema, arcSegmentSchema]))
    .min(1)
    .max(64),
});

const guideSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('freehand') }),
  /** `offsetMm`: from the line to the edge that the torch's front slides along; right = the front's radius. */
  z.strictObject({
    kind: z.enum(['straight-edge', 'template']),
    side: z.enum(['left', 'right']),
    offsetMm: z.number().min(0).max(40),
  }),
  /** An arm from a pin in the middle of the turn to the torch's front. */
  z.strictObject({ kind: z.literal('circle'), radiusMm: z.number().min(5).max(300) }),
]);

/** What the job asks of hand and metal beside a cut square through. */
const intendedSchema = z.strictObject({
  /** Work angle, degrees: lean of the handle across the line, positive to the left of travel. */
  bevelDeg: z.number().min(-45).max(45).default(0),
  /** Lean of the handle in the plane of travel; negative = the torch pushes. null = upright. */
  travelAngleDeg: bandSchema(-70, 70).nullable().default(null),
  /** Speed where the job has its own: a groove, a mark. null = the core's speed window for the metal. */
  speedMmPerS: bandSchema(0.5, 300).nullable().default(null),
  grooveDepthMm: bandSchema(0.02, 20).nullable().default(null),
  grooveWidthMm: bandSchema(0.2, 40).nullable().default(null),
  /** How often the line is gone along, each time in the same direction. */
  passes: z.number().int().min(1).max(4).default(1),
});

/**
 * A drill as its file holds it: what is cut, with which rig, along which line, and what counts as good.
 * Lengths in mm, currents in A, angles in degrees; the plate frame is that of SimulationSetup.
 */
export const drillSchema = z.strictObject({
  $schema: z.string().max(200).optional(),
  format: z.literal(DRILL_FORMAT),
  formatVersion: z.literal(DRILL_FORMAT_VERSION),
  /** Same as the file's name without .json. */
  id: z
    .string()
    .max(64)
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'must be small letters, digits and single hyphens'),
  title: line(120),
  technique: z.enum(TECHNIQUES),
  card: cardSchema,
  plate: plateSchema,
  site: siteSchema.default(PLAIN_SITE),
  rig: rigSchema,
  /** done: the rig stands as `rig` says; by-trainee: the trainee prepares it before the arc. */
  rigCheck: z.enum(['done', 'by-trainee']).default('done'),
  /** What is wrong with the rig all the same. One at most: the trainee names one cause. */
  faults: z.array(z.enum(RIG_FAULT_IDS)).max(1).default([]),
  path: pathSchema,
  /** Length at the start of the path that lies in the scrap and is not marked for size. */
  leadInMm: z.number().min(0).max(200).default(0),
  start: z.enum(['edge', 'contact-pierce', 'rolling-pierce', 'stand-off-pierce']),
  /** run-off: the cut leaves the plate at the end of the line; stop: the trigger is let go there; close: it meets its own start. */
  finish: z.enum(['run-off', 'stop', 'close']),
  guide: guideSchema,
  intended: intendedSchema.default(intendedSchema.parse({})),
  cueLevel: z.enum(['full', 'alternate', 'none']),
  /** How often it may be tried; null = as often as wanted. */
  attempts: z.number().int().min(1).max(999).nullable(),
  tolerances: tolerancesSchema,
  rubric: rubricSchema,
});

export type Drill = z.infer<typeof drillSchema>;
export type DrillPath = Drill['path'];
export type DrillGuide = Drill['guide'];
export type DrillIntended = Drill['intended'];
export type { DrillRubric } from './rubric-schema.ts';
export type { DrillTolerances } from './tolerances-schema.ts';
