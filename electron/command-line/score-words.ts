import { type Evidence, type FaultId, type Score, type ScoreReason, TICK_HZ } from '../../sim-core/index.ts';
import { rows, shown } from './shown.ts';

export const FAULT_WORDS: Record<FaultId, string> = {
  'severance.uncut': 'metal was left uncut',
  'severance.not-reached': 'the arc never reached part of the line',
  'travel-speed.too-fast': 'the hand was too fast',
  'travel-speed.too-slow': 'the hand was too slow',
  'spark-angle.too-flat': 'the sparks trailed too flat',
  'spark-angle.too-steep': 'the sparks went too straight down',
  'spark-angle.none-below': 'no sparks came out below',
  'squareness.leaning': 'the handle leaned',
  'stand-off.too-high': 'the tip was too high',
  'stand-off.too-low': 'the tip was too low',
  'line-following.off-line': 'the arc was off the line',
  'edge-dwell.left-early': 'the hand left the edge before the arc was through',
  'edge-dwell.left-late': 'the hand stayed too long at the edge',
  'steadiness.uneven': 'the speed was uneven',
  'steadiness.halted': 'the hand stopped on the way',
  'end-of-cut.stopped-short': 'the cut stopped short of its end',
  'end-of-cut.tab-left': 'a tab was left at the end',
  'end-of-cut.arc-left-on': 'the trigger was held too long after the end',
  'end-of-cut.overrun': 'the arc ran too far past the end',
  'pierce.not-through': 'the pierce never broke through',
  'pierce.left-blind': 'the hand left before the hole was through',
  'pierce.left-late': 'the hand stayed on after the hole was through',
  'pierce.blowback': 'too much molten metal came back at the torch',
  'pierce.too-high': 'the tip was too high while the hole was blind',
  'pierce.too-low': 'the tip was too low while the hole was blind',
  'pierce.too-upright': 'the torch was not leaned at the start of the pierce',
  'pierce.leaning': 'the torch leaned while the hole was blind',
  'groove-depth.shallow': 'the groove is too shallow',
  'groove-depth.deep': 'the groove is too deep',
  'groove-depth.narrow': 'the groove is too narrow',
  'groove-depth.wide': 'the groove is too wide',
  'groove-evenness.uneven': 'the groove is uneven',
  'part-size.cut-away': 'metal of the part was cut away',
  'part-size.left-on': 'metal was left on the part',
  'gap-crossing.arc-lost': 'the arc did not come back after an opening',
  'gap-crossing.slow': 'the arc came back late after an opening',
  'gap-crossing.struck-often': 'the arc was struck more often than the openings ask for',
  'cut-quality.slanted': 'the faces are slanted',
  'cut-quality.dross': 'dross hangs on the edge',
  'cut-quality.rough': 'the faces are rough',
  'torch-parts.worn': 'the parts of the torch were worn more than the job asks for',
  'rig-check.not-done': 'the rig was not checked',
  'rig-check.unsafe': 'the rig check left something unsafe',
  'rig-check.wrong': 'the rig was set up wrong',
  'rig-check.noted': 'the rig check could be better',
  'fault-finding.not-tried': 'the torch was not tried before the fault was named',
  'fault-finding.not-named': 'no fault was named',
  'fault-finding.wrong-cause': 'the wrong fault was named',
  'fault-finding.wrong-remedy': 'the fault was named rightly, its remedy wrongly',
};

/** A score for reading: marks, the costliest moment of each measure, why it fails, what to change first. */
export function scoreText(score: Score): string {
  const table = rows(
    score.measures.map((measure): [string, string] => {
      const [worst] = measure.evidence;
      const moment = worst
        ? `   ${FAULT_WORDS[worst.fault]}${figureWords(worst)}, from ${shown(worst.fromTick / TICK_HZ)} s at x ${shown(worst.xMm)}, y ${shown(worst.yMm)}`
        : '';
      return [measure.id, `${measure.mark.toFixed(1).padStart(5)}  x ${measure.weight}${moment}`];
    }),
  );
  const lines = [table, '', `Score ${score.score} of 100: ${score.passed ? 'passed' : 'not passed'}`];
  for (const reason of score.reasons) lines.push(`  ${reasonWords(reason)}`);
  if (score.firstThingToChange) lines.push(`First thing to change: ${FAULT_WORDS[score.firstThingToChange.key]}.`);
  return lines.join('\n');
}

function figureWords({ value, unit, finding }: Evidence): string {
  if (finding !== undefined) return ` (${finding})`;
  return unit === 'none' ? '' : `, ${shown(value)} ${unit}`;
}

function reasonWords(reason: ScoreReason): string {
  switch (reason.kind) {
    case 'not-severed':
      return `The plate is not severed: ${shown(reason.uncutMm)} mm in one piece are left.`;
    case 'not-grooved':
      return `The groove is missing over ${shown(reason.missingMm)} mm.`;
    case 'cut-aside':
      return `The cut is too far beside the line over ${shown(reason.asideMm)} mm in one piece.`;
    case 'below-pass-mark':
      return `The score of ${reason.score} is below ${reason.passMark}.`;
    case 'measure-below':
      return `The mark for ${reason.measureId}, ${reason.mark}, is below ${reason.mustReach}.`;
    case 'far-off':
      return `${reason.measureId} was far off on ${shown(100 * reason.share)} % of the way.`;
  }
}
