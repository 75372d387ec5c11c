// A guide at a wrong offset gives a part of the wrong size by as much, measured on the metal by the part-size measure.
import { expect, test } from 'vitest';
import { type Drill, referenceHand, rightChoices, rightGuideOffsetMm, runHand, windowOfDrill } from '../../sim-core/index.ts';
import { shippedDrill } from './drill-files.ts';

/** The drill with a tolerance so fine that the measure tells what it measured. */
function fine(id: string): Drill {
  const drill = shippedDrill(id);
  return { ...drill, tolerances: { ...drill.tolerances, sizeMm: 0.1 } };
}

/** Metal taken from the part, mm, negative = left on it; 0 where it is within a tenth of a millimetre. */
function takenMm(drill: Drill, offMm: number): number {
  const guideOffsetMm = (rightGuideOffsetMm(drill) ?? 0) + offMm;
  const run = runHand(drill, referenceHand(drill, windowOfDrill(drill)), 1, {
    choices: { ...rightChoices(drill), guideOffsetMm },
  });
  const measure = run.score.measures.find(({ id }) => id === 'part-size');
  if (!measure) throw new Error('the drill does not ask for the size');
  return measure.evidence[0]?.value ?? 0;
}

// A guide lies on the part: farther off, it lets the cut run nearer to it. Tolerance: the cell of the metal field, 0.25 mm.
test.each([
  ['gangway-plate-straight-edge-6', 1.5],
  ['gangway-plate-straight-edge-6', -1.5],
  ['cradle-pad-template-4', 1],
])(
  '%s: %d mm off the right place moves the edge of the part by that',
  (id, offMm) => {
    const drill = fine(id);
    expect(Math.abs(takenMm(drill, offMm) - takenMm(drill, 0) - offMm)).toBeLessThan(0.25);
  },
  120_000,
);

// The arm is set to the rim: set too far in, the circle is wider, and a hole takes twice that from the part's diameter.
test('porthole-circle-guide-6: the hole grows by twice what the arm is off', () => {
  const drill = fine('porthole-circle-guide-6');
  const right = takenMm(drill, 0);
  for (const offMm of [-1.5, 1.5]) expect(Math.abs(takenMm(drill, offMm) - right + 2 * offMm)).toBeLessThan(0.5);
});
