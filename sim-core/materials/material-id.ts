export const MATERIAL_IDS = ['mild-steel', 'stainless-steel', 'aluminium'] as const;
export type MaterialId = (typeof MATERIAL_IDS)[number];
