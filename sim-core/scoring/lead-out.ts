import type { MeasureInput } from './score-context.ts';

/** A cut off the far edge is led out over so many thicknesses and millimetres before it. */
const OFF_EDGE_THICKNESSES = 2;
const OFF_EDGE_MM = 6;
/** Where a cut stops on its mark, the hand may come to rest over so many millimetres. */
const AT_MARK_MM = 2;

/** How far before its end a cut may be led out, by leaning or by slowing, mm. */
export function leadOutMm(input: MeasureInput): number {
  const { finish, plate } = input.drill;
  if (finish === 'run-off') return OFF_EDGE_THICKNESSES * plate.thicknessMm + OFF_EDGE_MM;
  // An outline closes on its own kerf as on an edge, only that nothing lies beyond.
  return finish === 'close' ? plate.thicknessMm + AT_MARK_MM : AT_MARK_MM;
}

/** True where the arc may be led out. */
export function leadsOut(input: MeasureInput, index: number): boolean {
  const { sMm, lengthMm } = input.trace;
  return sMm[index] > lengthMm - leadOutMm(input);
}
