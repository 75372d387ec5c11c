import type { HandScript, HandStep } from '../../../sim-core/drill/hand-script-schema.ts';
import { withSteps } from '../../../sim-core/hand/script-edits.ts';
import {
  createScriptedHand,
  type Drill,
  LENGTH_QUANTUM_MM,
  pathGeometry,
  type ScriptedHand,
  TICK_HZ,
  windowOfDrill,
} from '../../../sim-core/index.ts';
import { MODEL } from '../../../sim-core/physics/model-constants.ts';

/** An arc that went out is noticed after so long, s, beyond the hand's own time to react. */
const NOTICED_S = 0.3;
/**
 * What the hand goes back behind the place where it went out, mm, and how often it strikes again. Where that was in vain, the arc out again no
 * farther on, it strikes so much farther on from then on: onto metal, as anybody would who finds none left where the torch is.
 */
const BACK_MM = 2;
const MOST_TIMES = 12;
/** The hand goes no farther than this from one tick to the next, mm. */
const FOLLOWED_MM = 8;
/** So near to the end, mm, what is left is let be. */
const LET_BE_MM = 3;
/** Until the torch is set down again, s. */
const SET_DOWN_S = 0.5;

/**
 * A hand that does what anybody does whose arc goes out: it lets go, comes back to where the cut ends, and strikes again, on its way: to
 * stand still over an open kerf would lose the arc once more. Where the rig strikes again by itself over openings, that is left to it until it
 * gives up; then the hand strikes where it has come to. Of a drill with several passes one is left as it is. The script's moves must be along
 * the line.
 */
export function persistentHand(drill: Drill, script: HandScript, seed: number): ScriptedHand {
  const window = windowOfDrill(drill);
  const path = pathGeometry(drill.path);
  const crossesGaps = drill.rig.mode === 'gaps';
  const lastsS = crossesGaps ? MODEL.longestPilotS : 0;
  const noticedTicks = Math.round((lastsS + NOTICED_S + (script.habits?.reactionS ?? 0)) * TICK_HZ);
  const make = (steps: HandStep[]): ScriptedHand => createScriptedHand({ script: withSteps(script, steps), drill, window, seed });
  let hand = make(script.steps);
  let burning = false;
  let alongMm = 0;
  let lostMm = 0;
  let backMm = BACK_MM;
  let lostBeforeMm = Number.NEGATIVE_INFINITY;
  let lostTicks = 0;
  let times = drill.intended.passes > 1 ? MOST_TIMES : 0;
  return {
    get done() {
      return hand.done;
    },
    next(sight) {
      const tick = hand.next(sight);
      if (times >= MOST_TIMES) return tick;
      if (tick.trigger === 0) burning = false;
      else if (sight.transferred) [burning, lostTicks] = [true, 0];
      if (!burning) return tick;
      // Followed from where the arc burned: where an outline closes, its end lies on its beginning.
      alongMm = path.nearest(tick.x * LENGTH_QUANTUM_MM, tick.y * LENGTH_QUANTUM_MM, alongMm, FOLLOWED_MM).sMm;
      if (sight.transferred) return tick;
      if (lostTicks === 0) lostMm = alongMm;
      lostTicks += 1;
      if (lostTicks < noticedTicks || lostMm > path.lengthMm - LET_BE_MM) return tick;
      times += 1;
      if (lostMm <= lostBeforeMm + BACK_MM) backMm -= BACK_MM;
      lostBeforeMm = lostMm;
      [burning, lostTicks] = [false, 0];
      hand = make(
        crossesGaps ? struckAgain(script, alongMm, alongMm, alongMm) : struckAgain(script, alongMm, lostMm, lostMm - backMm),
      );
      return tick;
    },
  };
}

/** What is left to do from where the arc went out, struck again at a place along the line. */
function struckAgain(script: HandScript, atMm: number, lostMm: number, strikeMm: number): HandStep[] {
  const first = script.steps.findIndex((step) => step.do === 'move' && 'alongMm' in step.to && step.to.alongMm > lostMm);
  const heights = script.steps.slice(0, Math.max(0, first)).flatMap((step) => {
    if (step.do === 'height') return [step.heightMm];
    return step.do === 'place' && step.heightMm !== undefined ? [step.heightMm] : [];
  });
  const heightMm = heights.at(-1);
  const leans = script.steps.slice(0, Math.max(0, first)).filter((step) => step.do === 'lean');
  return [
    { do: 'place', at: { alongMm: atMm }, heightMm },
    { do: 'trigger', on: false },
    ...leans,
    { do: 'place', at: { alongMm: Math.max(0, strikeMm) }, heightMm },
    { do: 'wait', for: 'seconds', seconds: SET_DOWN_S },
    { do: 'trigger', on: true },
    ...(first < 0 ? [] : script.steps.slice(first)),
  ];
}
