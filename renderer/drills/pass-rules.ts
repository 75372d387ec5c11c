import type { Drill } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';

/** What counts as a pass, one line a rule. */
export function passRules(drill: Drill): string[] {
  const { passMark, measures } = drill.rubric;
  const least = measures.flatMap((measure) =>
    measure.mustReach === undefined
      ? []
      : [say('home.drill.must-reach', { measure: say(`measure.${measure.id}`), mark: measure.mustReach })],
  );
  return [say('home.drill.pass-mark', { mark: passMark }), ...least];
}
