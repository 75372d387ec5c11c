import { contains } from '../math/plane.ts';
import type { PointMm } from '../run/types.ts';
import { openingOutlines } from './openings.ts';
import type { ParseProblem } from './parse-problem.ts';
import type { Drill } from './schema.ts';

/** Most openings that a plate may have: more are no mesh but a sieve, and nobody's part. */
const MOST_OPENINGS = 400;

/** What is wrong with the plate of a drill: supports that carry nothing, cut-outs beside it, openings and gaps that do not fit. */
export function plateProblems(drill: Drill): ParseProblem[] {
  const { lengthMm, widthMm, supports, cutouts, openings, airGap, thicknessMm } = drill.plate;
  const onPlate = (point: PointMm): boolean => point.xMm >= 0 && point.xMm <= lengthMm && point.yMm >= 0 && point.yMm <= widthMm;
  const problems: ParseProblem[] = [];
  const open = openingOutlines(drill.plate);
  if (openings && open.length === 0) {
    problems.push({ path: '$.plate.openings', sentence: 'No opening of this pitch and strand fits into the plate.' });
  }
  if (open.length > MOST_OPENINGS) {
    const sentence = `The plate would have ${open.length} openings; at most ${MOST_OPENINGS} can be.`;
    problems.push({ path: '$.plate.openings', sentence });
  }
  for (const [index, support] of supports.entries()) {
    if (!onPlate(support))
      problems.push({ path: `$.plate.supports[${index}]`, sentence: 'This support lies outside the plate.' });
    else if ([...cutouts, ...open].some((outline) => contains(outline, support.xMm, support.yMm))) {
      problems.push({ path: `$.plate.supports[${index}]`, sentence: 'This support lies under a cut-out and carries nothing.' });
    }
  }
  for (const [index, outline] of cutouts.entries()) {
    if (!outline.every(onPlate)) {
      problems.push({ path: `$.plate.cutouts[${index}]`, sentence: 'This cut-out reaches outside the plate.' });
    }
  }
  if (airGap && airGap.toMm >= thicknessMm) {
    problems.push({ path: '$.plate.airGap.toMm', sentence: 'Below the air gap there must be a second plate.' });
  }
  return problems;
}
