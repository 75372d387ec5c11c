import { z } from 'zod';
import { MATERIAL_IDS } from '../materials/material-id.ts';
import { SURFACES } from '../physics/rig-fit.ts';

// The page runs under a content policy without eval; zod's compiled fast path would probe for it.
z.config({ jitless: true });

/** A place in the plate frame, mm. Wider than any plate, so that a path may begin and end beside it. */
export const pointSchema = z.strictObject({
  xMm: z.number().min(-2000).max(2000),
  yMm: z.number().min(-2000).max(2000),
});

/** Closed outlines, top view. */
export const outlinesSchema = z.array(z.array(pointSchema).min(3).max(64)).max(16);

/** Openings of expanded metal, slotted or punched plate: one in every pitch, strands as wide as given between them. */
const openingsSchema = z.strictObject({
  kind: z.enum(['diamonds', 'slots', 'holes']),
  pitchXMm: z.number().min(6).max(200),
  pitchYMm: z.number().min(6).max(200),
  strandMm: z.number().min(1.5).max(50),
});
export type Openings = z.infer<typeof openingsSchema>;

export const plateSchema = z.strictObject({
  material: z.enum(MATERIAL_IDS),
  /** From the top surface to the underside, an air gap between two plates included. */
  thicknessMm: z.number().min(0.5).max(40),
  lengthMm: z.number().min(20).max(600),
  widthMm: z.number().min(20).max(600),
  /** Closed outlines, top view, where there is no metal when the run starts. */
  cutouts: outlinesSchema.default([]),
  /** Where the plate rests. A severed piece that holds none of these falls. */
  supports: z.array(pointSchema).max(16).default([]),
  /** What lies on the top surface. */
  surface: z.enum(SURFACES).default('bare'),
  /** Two plates one on the other: between these depths there is air. */
  airGap: z
    .strictObject({ fromMm: z.number().min(0.5).max(40), toMm: z.number().min(0.5).max(40) })
    .refine((gap) => gap.fromMm < gap.toMm, 'fromMm must be below toMm')
    .nullable()
    .default(null),
  openings: openingsSchema.nullable().default(null),
});
export type DrillPlate = z.infer<typeof plateSchema>;
