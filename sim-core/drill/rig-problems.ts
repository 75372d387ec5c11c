import { abs } from '../math/elementary.ts';
import { RIGS } from '../physics/rig.ts';
import { dialOf, NOZZLES } from '../physics/rig-fit.ts';
import { figureShown as shown } from './figure-shown.ts';
import { guideOffsetMm } from './guide.ts';
import type { ParseProblem } from './parse-problem.ts';
import { rightClampSpot } from './rig-choices.ts';
import type { Drill } from './schema.ts';

/** What is wrong with the rig that a drill calls the right one, with its guide, and with what is said of the place. */
export function rigProblems(drill: Drill): ParseProblem[] {
  const { rig, guide, site, plate } = drill;
  const problems: ParseProblem[] = [];
  const add = (path: string, sentence: string): void => {
    problems.push({ path, sentence });
  };
  const { lowA, highA } = dialOf(RIGS[rig.class], rig.mode);
  if (rig.currentA < lowA || rig.currentA > highA) {
    const where = rig.mode === 'mark' ? ' for marking' : '';
    add(
      '$.rig.currentA',
      `The dial of rig ${rig.class} goes from ${lowA} to ${highA} A${where}; ${shown(rig.currentA)} A is not on it.`,
    );
  } else {
    const nozzle = NOZZLES[rig.nozzle];
    if (rig.currentA < nozzle.lowA || rig.currentA > nozzle.highA) {
      const range = `${nozzle.lowA} to ${nozzle.highA} A`;
      add('$.rig.nozzle', `The ${rig.nozzle} nozzle is made for ${range}, and the drill wants ${shown(rig.currentA)} A.`);
    }
  }
  if ((rig.nozzle === 'gouging') !== (rig.mode === 'gouge')) {
    add('$.rig.nozzle', 'The gouging nozzle belongs to gouging, and gouging to it.');
  }
  if ((rig.shield === 'wide') !== (rig.mode === 'gouge')) {
    add('$.rig.shield', 'The wide shield belongs to gouging, and gouging to it.');
  }
  if (!rightClampSpot(drill))
    add('$.rig.clampSpots', 'No clamp spot is right: one must be bare and not on the piece that falls.');
  if (guide.kind === 'straight-edge' || guide.kind === 'template') {
    const right = guideOffsetMm(rig.shield);
    if (abs(guide.offsetMm - right) > 0.01) {
      const sentence = `With the ${rig.shield} shield the guide stands ${shown(right)} mm from the line; the drill says ${shown(guide.offsetMm)} mm.`;
      add('$.guide.offsetMm', sentence);
    }
  }
  const coated = plate.surface === 'paint' || plate.surface === 'zinc';
  if (coated && site.coating !== plate.surface) {
    add('$.site.coating', `The plate is coated with ${plate.surface}, and the site must say so.`);
  }
  return problems;
}
