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

/** The part of the form in which a place of the text (`$.rig.currentA`) is shown; what is drawn belongs to the line. */
export function partOfPath(path: string): BuilderPart {
  const [, key = ''] = /^\$\.([A-Za-z]+)/.exec(path) ?? [];
  return PARTS[key] ?? 'line';
}
