import { CORE_VERSION, conditionOfDrill, type ParseProblem } from '../../sim-core/index.ts';
import type { CoreWorkers } from './core-workers.ts';
import type { DrillText } from './drill-text.ts';
import type { SpeedWindows } from './speed-windows.ts';

/** Why a drill cannot be cut, every reason; empty where it can. */
export type WhyImpossible = (read: DrillText) => Promise<ParseProblem[]>;

/** A speed window that was found before is taken from the records: finding it costs seconds. */
export function createWhyImpossible(speedWindows: SpeedWindows, core: CoreWorkers): WhyImpossible {
  return async ({ drill, text }) => {
    const condition = conditionOfDrill(drill);
    const known = condition && (await speedWindows.get({ coreVersion: CORE_VERSION, ...condition })).window;
    if (!known) return await core.run('feasibility', { text, window: null });
    const { reason, ...figures } = known;
    return await core.run('feasibility', { text, window: reason === null ? figures : { ...figures, reason } });
  };
}
