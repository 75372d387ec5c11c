import type { Drill } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';

/** What counts as a pass in one breath: the score, and the marks that must be nearly full. The card names every floor. */
export function passInShort(drill: Drill): string {
  const strict = drill.rubric.measures.filter((measure) => (measure.mustReach ?? 0) > drill.rubric.passMark);
  const parts = strict.map((measure) =>
    say('home.drill.must-reach', { measure: say(`measure.${measure.id}`), mark: measure.mustReach ?? 0 }),
  );
  const rules = [say('home.drill.pass-mark', { mark: drill.rubric.passMark }), ...parts].join(', ');
  return say('home.drill.at-least', { rules });
}

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
