import { pathGeometry } from '../drill/path-geometry.ts';
import type { Drill } from '../drill/schema.ts';
import type { Samples } from '../run/types.ts';
import { firstThingToChange } from './first-thing-to-change.ts';
import { pathTrace } from './path-trace.ts';
import { failReasons, farOffReasons, handlingWorth, judgeMeasures, markMeasures, weighMarks } from './rubric.ts';
import type { Score } from './score.ts';
import type { ScoreContext } from './score-context.ts';

/**
 * Marks a run. `samples` are those of the whole run, one per tick; `context` holds the core's speed window for the drill
 * and the metal as it is after the last tick. Pure: the same run gives the same score on every machine.
 */
export function scoreRun(drill: Drill, samples: Samples, context: ScoreContext): Score {
  const geometry = pathGeometry(drill.path);
  const trace = pathTrace(drill, geometry, samples, context);
  const input = { drill, geometry, samples, trace, context };
  const results = judgeMeasures(input);
  const measures = markMeasures(input, results);
  const score = weighMarks(measures);
  const reasons = [...failReasons(input, measures, score), ...farOffReasons(input, results)];
  const advice = firstThingToChange(measures, {
    purpose: trace.purpose,
    travelledShare: trace.travelledShare,
    worth: handlingWorth(input),
    guided: drill.guide.kind !== 'freehand',
  });
  return { score, passed: reasons.length === 0, reasons, measures, firstThingToChange: advice };
}
