import { z } from 'zod';
import { RIGS } from '../physics/rig.ts';
import { NOZZLE_IDS, PART_IDS, RIG_MODES, SHIELD_IDS, SHIELDS, supplyBarFor } from '../physics/rig-fit.ts';
import type { ClampSpot } from './rig-schema.ts';
import type { Drill } from './schema.ts';

/** What a trainee has chosen in the rig check before the arc. */
export const rigChoicesSchema = z.strictObject({
  /** The parts in the order in which they were put in, from the handle outward. */
  stack: z.array(z.enum(PART_IDS)).max(10),
  nozzle: z.enum(NOZZLE_IDS),
  shield: z.enum(SHIELD_IDS),
  mode: z.enum(RIG_MODES),
  currentA: z.number().min(0).max(200),
  /** At the regulator with gas flowing, bar. */
  supplyBar: z.number().min(0).max(12),
  waterTrapDrained: z.boolean(),
  /** Id of a clamp spot of the drill; null = the clamp hangs nowhere. */
  clampSpot: z.string().max(40).nullable(),
  /** Distance from the line at which the guide is set, mm; null where there is none, or it was left off. */
  guideOffsetMm: z.number().min(0).max(40).nullable(),
  protection: z.strictObject({
    /** Number of the filter before the eyes; null = none. */
    shade: z.number().min(1).max(14).nullable(),
    gloves: z.boolean(),
    jacket: z.boolean(),
    hearing: z.boolean(),
    respirator: z.boolean(),
  }),
  ventilation: z.enum(['none', 'doors', 'extraction']),
  combustibles: z.enum(['left', 'cleared', 'covered']),
  fireWatchMin: z.union([z.literal(0), z.literal(30), z.literal(60)]),
  triggerGuardClosed: z.boolean(),
  coatingRemoved: z.boolean(),
  containerMadeSafe: z.boolean(),
});
export type RigChoices = z.infer<typeof rigChoicesSchema>;

/** The clamp spot that is right for a drill: the first that is bare and does not fall; null where there is none. */
export function rightClampSpot(drill: Drill): ClampSpot | null {
  return drill.rig.clampSpots.find((spot) => spot.surface === 'bare' && !spot.onDrop) ?? null;
}

/** The offset at which the guide of a drill is to be set for its own torch parts, mm; null where it is cut freehand. */
export function rightGuideOffsetMm(drill: Drill): number | null {
  if (drill.guide.kind === 'freehand') return null;
  return drill.guide.kind === 'circle' ? SHIELDS[drill.rig.shield].frontRadiusMm : drill.guide.offsetMm;
}

/** Everything as it should be for the job. */
export function rightChoices(drill: Drill): RigChoices {
  const { rig, site } = drill;
  return {
    stack: [...PART_IDS],
    nozzle: rig.nozzle,
    shield: rig.shield,
    mode: rig.mode,
    currentA: rig.currentA,
    supplyBar: supplyBarFor(rig.hoseM),
    waterTrapDrained: true,
    clampSpot: rightClampSpot(drill)?.id ?? null,
    guideOffsetMm: rightGuideOffsetMm(drill),
    protection: { shade: 8, gloves: true, jacket: true, hearing: true, respirator: true },
    ventilation: 'extraction',
    combustibles: 'cleared',
    fireWatchMin: 60,
    triggerGuardClosed: true,
    coatingRemoved: site.coating !== 'none',
    containerMadeSafe: site.closedContainer,
  };
}

/** What the trainee finds who has to prepare everything: nothing fitted, nothing set, nobody protected. */
export function neutralChoices(drill: Drill): RigChoices {
  return {
    stack: [],
    nozzle: 'small',
    shield: 'contact',
    mode: 'cut',
    currentA: RIGS[drill.rig.class].dialMinA,
    supplyBar: 0,
    waterTrapDrained: false,
    clampSpot: null,
    guideOffsetMm: drill.guide.kind === 'freehand' ? null : 0,
    protection: { shade: null, gloves: false, jacket: false, hearing: false, respirator: false },
    ventilation: 'none',
    combustibles: 'left',
    fireWatchMin: 0,
    triggerGuardClosed: false,
    coatingRemoved: false,
    containerMadeSafe: false,
  };
}
