import { z } from 'zod';
import { pointSchema } from './plate-schema.ts';

export const HAND_FORMAT = 'kerfhand-hand';

/** The version written today. Version 1 knew no hand that bears against a guide, nor one that leans about the torch's tip. */
export const HAND_FORMAT_VERSION = 2;

/**
 * Where a hand goes, one of:
 * `alongMm`, so far along the drill's line (below 0: before its start, on its tangent); `alongShare`, the same as a share
 * of its length; `pastEndMm`, so far past its end; or a point of the plate.
 */
const placeSchema = z.union([
  z.strictObject({ alongMm: z.number().min(-200).max(5000) }),
  z.strictObject({ alongShare: z.number().min(0).max(1) }),
  z.strictObject({ pastEndMm: z.number().min(0).max(200) }),
  pointSchema,
]);

/**
 * How fast, one of: `mmPerS`; `inWindow`, where 0 is the low and 1 the high end of the speed window that the core finds for
 * the drill, and other figures go on in proportion; `timesMiddle`, a multiple of the window's middle.
 */
const speedSchema = z.union([
  z.strictObject({ mmPerS: z.number().min(0.1).max(300) }),
  z.strictObject({ inWindow: z.number().min(-2).max(10) }),
  z.strictObject({ timesMiddle: z.number().min(0.01).max(20) }),
]);

const heightMm = z.number().min(0).max(100);
const leanDeg = z.number().min(-70).max(70);
const overS = z.number().min(0.05).max(30);
const meanwhile = z.boolean();

const stepSchema = z.discriminatedUnion('do', [
  /** Where the tip is held. The first place is where the run begins; a later one is gone to at `speed`. */
  z.strictObject({ do: z.literal('place'), at: placeSchema, heightMm: heightMm.optional(), speed: speedSchema.optional() }),
  z.strictObject({ do: z.literal('trigger'), on: z.boolean() }),
  /** Stands still: for a time, until the arc is on the metal, or until it is through; at the latest after `atMostS`. */
  z.strictObject({
    do: z.literal('wait'),
    for: z.enum(['seconds', 'arc', 'break-through']),
    seconds: z.number().min(0).max(60).optional(),
    atMostS: z.number().min(0.1).max(60).optional(),
  }),
  /** Moves there at a speed: along the line where the place is given along it, else straight. */
  z.strictObject({ do: z.literal('move'), to: placeSchema, speed: speedSchema }),
  /**
   * Leans the handle: travel angle positive toward the travel, work angle positive to its left. The place where the axis meets
   * the plate stays, or, about the tip, the tip does. With `meanwhile` the next steps begin at once.
   */
  z.strictObject({
    do: z.literal('lean'),
    travelAngleDeg: leanDeg.optional(),
    workAngleDeg: leanDeg.optional(),
    about: z.enum(['place', 'tip']).optional(),
    overS,
    meanwhile: meanwhile.optional(),
  }),
  z.strictObject({ do: z.literal('height'), heightMm, overS, meanwhile: meanwhile.optional() }),
]);

const habitsSchema = z.strictObject({
  /** Root mean square of the seeded tremor, sideways and along each; of the height; of the lean. */
  tremorMm: z.number().min(0).max(3).optional(),
  heightTremorMm: z.number().min(0).max(3).optional(),
  leanTremorDeg: z.number().min(0).max(15).optional(),
  /** A regular weave about the line, as a hand that never looks at it. */
  wander: z.strictObject({ amplitudeMm: z.number().min(0).max(20), wavelengthMm: z.number().min(5).max(500) }).optional(),
  /** How far to the left of the line the hand bears (to the right negative): against a guide, which stops it, or past the line. */
  bearsLeftMm: z.number().min(-30).max(30).optional(),
  /** Time from what is seen to what is done about it. */
  reactionS: z.number().min(0).max(1).optional(),
});

/** A scripted hand: what it does, step by step, and how steady it is. */
export const handScriptSchema = z
  .strictObject({
    $schema: z.string().max(200).optional(),
    format: z.literal(HAND_FORMAT),
    formatVersion: z.literal(HAND_FORMAT_VERSION),
    name: z.string().trim().min(1).max(80),
    about: z.string().trim().max(600).optional(),
    habits: habitsSchema.optional(),
    steps: z.array(stepSchema).min(2).max(1000),
  })
  .superRefine((script, context) => {
    // Also asked of a script whose steps are too few.
    const first = script.steps.at(0);
    if (first !== undefined && first.do !== 'place') {
      context.addIssue({
        code: 'custom',
        path: ['steps', 0, 'do'],
        message: 'The first step must be "place": a hand has to be somewhere.',
      });
    }
    for (const [index, step] of script.steps.entries()) {
      if (step.do !== 'wait' || (step.for === 'seconds') === (step.seconds !== undefined)) continue;
      const message =
        step.for === 'seconds' ? 'A wait for seconds needs "seconds".' : '"seconds" belongs to a wait for seconds only.';
      context.addIssue({ code: 'custom', path: ['steps', index, 'seconds'], message });
    }
  });

export type HandScript = z.infer<typeof handScriptSchema>;
export type HandStep = HandScript['steps'][number];
export type HandPlace = z.infer<typeof placeSchema>;
export type HandSpeed = z.infer<typeof speedSchema>;
export type HandHabits = z.infer<typeof habitsSchema>;
