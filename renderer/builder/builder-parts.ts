/** Parts of the form, in their order. */
export const BUILDER_PARTS = ['plate', 'line', 'rig', 'pass', 'card'] as const;
export type BuilderPart = (typeof BUILDER_PARTS)[number];

const PARTS: Record<string, BuilderPart> = {
  plate: 'plate',
  site: 'plate',
  rig: 'rig',
  rigCheck: 'rig',
  faults: 'rig',
  rubric: 'pass',
  tolerances: 'pass',
  cueLevel: 'pass',
  attempts: 'pass',
  card: 'card',
  title: 'card',
  id: 'card',
  technique: 'card',
};

/** The place of the plan that a problem is about (`$.plate.supports[1]`); null where it is about no single one. */
export function placeOfPath(path: string): string | null {
  if (path === '$.path.start') return 'joint-0';
  const [, list, index] = /^\$\.(path\.segments|plate\.supports|plate\.cutouts|rig\.clampSpots)\[(\d+)\]/.exec(path) ?? [];
  if (list === 'path.segments') return `joint-${Number(index) + 1}`;
  if (list === 'plate.supports') return `support-${index}`;
  if (list === 'plate.cutouts') return `opening-${index}-0`;
  return list === undefined ? null : `clamp-${index}`;
}

/** The part of the form in which a place of the text (`$.rig.currentA`) is shown; what is drawn belongs to the line. */
export function partOfPath(path: string): BuilderPart {
  const [, key = ''] = /^\$\.([A-Za-z]+)/.exec(path) ?? [];
  return PARTS[key] ?? 'line';
}
