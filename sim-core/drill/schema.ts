import { z } from 'zod';
import { MATERIAL_IDS } from '../materials/material-id.ts';
import { CAUTION_IDS } from './caution-ids.ts';
import { MEASURE_IDS } from './measure-ids.ts';

// The page runs under a content policy without eval; zod's compiled fast path would probe for it.
z.config({ jitless: true });

export const DRILL_FORMAT = 'kerfhand-drill';

/** The version written today. Older files are brought up to it by the named steps of migrations.ts. */
export const DRILL_FORMAT_VERSION = 1;

/** A place in the plate frame, mm. Wider than any plate, so that a path may begin and end beside it. */
export const pointSchema = z.strictObject({
  xMm: z.number().min(-2000).max(2000),
  yMm: z.number().min(-2000).max(2000),
});

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

const plateSchema = z.strictObject({
  material: z.enum(MATERIAL_IDS),
  thicknessMm: z.number().min(0.5).max(40),
  lengthMm: z.number().min(20).max(600),
  widthMm: z.number().min(20).max(600),
  /** Closed outlines, top view, where there is no metal when the run starts. */
  cutouts: z.array(z.array(pointSchema).min(3).max(64)).max(16).default([]),
  /** Where the plate rests. A severed piece that holds none of these falls. */
  supports: z.array(pointSchema).max(16).default([]),
});

const rigSchema = z.strictObject({
  class: z.enum(['40', '60', '100']),
  currentA: z.number().min(1).max(200),
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

const bandSchema = (min: number, max: number) =>
  z
    .strictObject({ low: z.number().min(min).max(max), high: z.number().min(min).max(max) })
    .refine((band) => band.low < band.high, 'low must be below high');

const tolerancesSchema = z.strictObject({
  /** Lean of the spark stream under the plate that counts as right, degrees trailing. */
  sparkAngleDeg: bandSchema(0, 60),
  /** Height of the tip above the plate that counts as right, mm. */
  standOffMm: bandSchema(0, 20),
  /** Lean of the handle from upright that still counts as square, degrees. */
  leanDeg: z.number().min(0.5).max(30),
  /** Distance from the line that still counts as on it, mm. */
  offLineMm: z.number().min(0.1).max(10),
  /** Standard deviation of the speed over its mean that still counts as steady. */
  speedVariation: z.number().min(0.01).max(1),
  /** Wait at the edge after break-through that still counts as prompt, s. */
  lateStartS: z.number().min(0.05).max(5),
  /** How far past the end of the line the arc may still burn, mm. */
  overrunMm: z.number().min(0.5).max(50),
});

const rubricSchema = z.strictObject({
  passMark: z.number().min(1).max(100),
  measures: z
    .array(
      z.strictObject({
        id: z.enum(MEASURE_IDS),
        weight: z.number().min(0.1).max(10),
        /** Least mark of this measure with which the run can pass. */
        mustReach: z.number().min(0).max(100).optional(),
      }),
    )
    .min(1)
    .max(MEASURE_IDS.length)
    .refine((measures) => new Set(measures.map((measure) => measure.id)).size === measures.length, 'a measure stands twice')
    .refine((measures) => measures.some((measure) => measure.id === 'severance'), 'severance must be among the measures'),
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
  technique: z.enum(['edge-start']),
  card: cardSchema,
  plate: plateSchema,
  rig: rigSchema,
  path: pathSchema,
  start: z.enum(['edge']),
  /** run-off: the cut leaves the plate at the end of the line; stop: the trigger is let go at the end of the line. */
  finish: z.enum(['run-off', 'stop']),
  guide: z.enum(['freehand']),
  cueLevel: z.enum(['full', 'alternate', 'none']),
  /** How often it may be tried; null = as often as wanted. */
  attempts: z.number().int().min(1).max(999).nullable(),
  tolerances: tolerancesSchema,
  rubric: rubricSchema,
});

export type Drill = z.infer<typeof drillSchema>;
export type DrillPath = Drill['path'];
export type DrillTolerances = Drill['tolerances'];
export type DrillRubric = Drill['rubric'];
