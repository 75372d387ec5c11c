import type { DrillSummary } from '../../electron/contract.ts';
import { type MaterialId, TECHNIQUES } from '../../sim-core/index.ts';

/** Thicknesses as people look for them, mm: over the first, up to the second. */
export const THICKNESS_BANDS = {
  thin: { overMm: 0, upToMm: 3 },
  light: { overMm: 3, upToMm: 6 },
  middle: { overMm: 6, upToMm: 10 },
  heavy: { overMm: 10, upToMm: Number.POSITIVE_INFINITY },
} as const;
export type ThicknessBand = keyof typeof THICKNESS_BANDS;

/** What is looked for; null = anything. */
export interface DrillFilter {
  technique: string | null;
  material: MaterialId | null;
  thickness: ThicknessBand | null;
}

export const NO_FILTER: DrillFilter = { technique: null, material: null, thickness: null };

/** Drills of one technique, thin metal first. */
export interface DrillGroup {
  technique: string;
  drills: DrillSummary[];
}

function fits(drill: DrillSummary, filter: DrillFilter): boolean {
  if (filter.technique !== null && drill.technique !== filter.technique) return false;
  if (filter.material !== null && drill.material !== filter.material) return false;
  if (filter.thickness === null) return true;
  const { overMm, upToMm } = THICKNESS_BANDS[filter.thickness];
  return drill.thicknessMm > overMm && drill.thicknessMm <= upToMm;
}

/** Techniques that there are drills for, in the order in which they are learnt; one that the core does not know comes last. */
export function techniquesOf(drills: readonly DrillSummary[]): string[] {
  const known: readonly string[] = TECHNIQUES;
  const place = (technique: string) => (known.includes(technique) ? known.indexOf(technique) : known.length);
  return [...new Set(drills.map((drill) => drill.technique))].toSorted((a, b) => place(a) - place(b) || a.localeCompare(b));
}

/** The drills that are looked for, by technique in learning order; groups with none are left out. */
export function drillShelf(drills: readonly DrillSummary[], filter: DrillFilter): DrillGroup[] {
  return techniquesOf(drills)
    .map((technique) => ({
      technique,
      drills: drills
        .filter((drill) => drill.technique === technique && fits(drill, filter))
        .toSorted((a, b) => a.thicknessMm - b.thicknessMm || a.title.localeCompare(b.title)),
    }))
    .filter((group) => group.drills.length > 0);
}
