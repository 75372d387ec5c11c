import { ALUMINIUM } from './aluminium.ts';
import type { Material } from './material.ts';
import type { MaterialId } from './material-id.ts';
import { MILD_STEEL } from './mild-steel.ts';
import { STAINLESS_STEEL } from './stainless-steel.ts';

export const MATERIALS: Record<MaterialId, Material> = {
  'mild-steel': MILD_STEEL,
  'stainless-steel': STAINLESS_STEEL,
  aluminium: ALUMINIUM,
};
