import { type Drill, holdToGuide, pathGeometry, type RigChoices, rightChoices } from '../../sim-core/index.ts';
import { type HandLimits, limitsFor } from '../input/hand-pose.ts';

/** How far the hand may go on a drill's bench, and where its guide holds it, set as the trainee has set it. */
export function handLimits(drill: Drill, choices: RigChoices | null): HandLimits {
  const { plate, guide } = drill;
  const { guideOffsetMm, shield } = choices ?? rightChoices(drill);
  if (guide.kind === 'freehand' || guideOffsetMm === null) return limitsFor(plate.lengthMm, plate.widthMm);
  const path = pathGeometry(drill.path);
  return limitsFor(plate.lengthMm, plate.widthMm, (xMm, yMm) => holdToGuide(path, guide, guideOffsetMm, { shield }, xMm, yMm));
}
