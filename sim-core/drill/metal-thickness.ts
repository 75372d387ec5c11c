/** A plate of a drill, or of a simulation's setup. */
interface Plate {
  thicknessMm: number;
  airGap?: { fromMm: number; toMm: number } | null;
}

/** Metal that the arc has to go through straight down, mm: of two plates one above the other that of both, without the air between. */
export function metalThicknessMm({ thicknessMm, airGap }: Plate): number {
  return thicknessMm - (airGap ? airGap.toMm - airGap.fromMm : 0);
}
