import type { ParseProblem } from '../../sim-core/index.ts';
import type { CoreTaskOptions, CoreWorkers } from './core-workers.ts';
import type { DrillText } from './drill-text.ts';

/** Why a drill cannot be cut, every reason; empty where it can. */
export type WhyImpossible = (read: DrillText, options?: CoreTaskOptions) => Promise<ParseProblem[]>;

/**
 * Asks the core's own workers, which keep the speeds of metals that they have worked out. Windows in the records come from pages,
 * anybody's among them, and decide nothing here.
 */
export function createWhyImpossible(core: CoreWorkers): WhyImpossible {
  return ({ text }, options) => core.run('feasibility', text, options);
}

/** Of a drill that cannot be cut: the first reason and how many more there are; null where there is none. */
export function impossibleSentence({ drill }: DrillText, [first, ...more]: readonly ParseProblem[]): string | null {
  if (!first) return null;
  const rest = more.length > 0 ? ` (and ${more.length} more ${more.length === 1 ? 'problem' : 'problems'})` : '';
  return `The drill "${drill.title}" cannot be cut as it stands. At ${first.path}: ${first.sentence}${rest}`;
}
