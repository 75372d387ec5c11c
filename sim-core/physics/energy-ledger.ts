/**
 * Where every joule of the arc went, J since the first tick.
 * deliveredJ = removedJ + conductedJ + throughJ, closed to 0.5 % (a test holds it).
 */
export interface EnergyLedger {
  /** Power that reaches the metal or the hole, after the efficiency factor. */
  deliveredJ: number;
  /** Heat carried off by thrown metal, counted from ambient temperature. */
  removedJ: number;
  /** Heat left in the plate, including melt that was not thrown out. */
  conductedJ: number;
  /** Heat that passed the plate through open space or beside it. */
  throughJ: number;
}
