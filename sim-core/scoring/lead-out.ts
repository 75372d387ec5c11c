import type { MeasureInput } from './score-context.ts';

/** The end of a cut off the far edge is led out over so many thicknesses and millimetres before it. */
const THICKNESSES = 2;
const MORE_MM = 6;

/** How far before its end a cut that runs off the metal may be led out, by leaning or by slowing, mm; 0 where it does not run off. */
export function leadOutMm(input: MeasureInput): number {
  const { finish, plate } = input.drill;
  return finish === 'run-off' ? THICKNESSES * plate.thicknessMm + MORE_MM : 0;
}

/** True where the arc may be led out over the far edge. */
export function leadsOut(input: MeasureInput, index: number): boolean {
  const { sMm, lengthMm } = input.trace;
  return sMm[index] > lengthMm - leadOutMm(input);
}
