import type { DrillSummary } from '../../electron/contract.ts';

/** The drill that a first cut is made in: 6 mm mild steel, straight, from the edge. */
export const FIRST_CUT_DRILL = 'hanger-tab-straight-6';

/** Whether somebody with so many runs is shown the short way to a first cut. */
export function offersFirstCut(drills: readonly Pick<DrillSummary, 'id' | 'source'>[], runTotal: number): boolean {
  return runTotal === 0 && drills.some((drill) => drill.id === FIRST_CUT_DRILL && drill.source === 'shipped');
}
