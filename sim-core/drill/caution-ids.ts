/** Dangers of the real work that a drill's card can call up. Texts, figures and their sources stand with the page. */
export const CAUTION_IDS = [
  'electric-shock',
  'eyes',
  'fume',
  'coatings',
  'noise',
  'fire',
  'compressed-gas',
  'hot-metal',
  'closed-container',
] as const;
export type CautionId = (typeof CAUTION_IDS)[number];
