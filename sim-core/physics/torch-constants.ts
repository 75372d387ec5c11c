/**
 * Every tunable figure of gas, parts, return path and wear, once. None has an allowed source: all are design defaults, set
 * so that each fault shows its own sign and each bad habit its own cost. The form of the electrode's wear, a share by starts and
 * stops and a share by arc time, is published (J. Peters et al., J. Phys. D 38 (2005) 1781); its coefficients are not.
 */
export const TORCH = {
  /** Pressure at the torch, bar, under which the pressure switch lets no pilot start. */
  leastBar: 2.4,
  /** Growth of the jet's radius, as a share, per share of pressure that is missing. */
  softPerMissing: 1.2,
  /** Double arcs begun per second of arc per share of pressure that is missing. */
  doublePerMissing: 2.5,
  /** Share of strikes that fail, and more arc voltage to the millimetre, per share of pressure too much. */
  failPerExcess: 2.5,
  gradientPerExcess: 2,
  /** A nozzle too large for the current: growth of the jet's radius per share that the current lies below its range. */
  softPerLarge: 0.5,
  /** A nozzle too small: double arcs per second per share that the current lies above its range. */
  doublePerSmall: 8,
  /** The gas flow of gouging through a nozzle for cutting: growth of the jet's radius. */
  softGougeFlow: 0.3,
  /** What a source in gouging mode can hold beyond its limit, V: the arc is long. */
  gougeHeadroomV: 40,

  /** Share of the power that a source in marking mode lets through: it chops the arc. */
  markPower: 0.75,

  /** Wet gas: wandering, deg rms; share of strikes that fail; wear of the electrode, times. */
  wetWanderDeg: 5,
  wetFails: 0.3,
  wetWear: 4,
  /** Oily gas: double arcs per second; wandering, deg rms; wear of the electrode, times. */
  oilyDoubles: 0.8,
  oilyWanderDeg: 2,
  oilyWear: 2.5,

  /** Spent share of the electrode from which on it shows; wandering, deg rms, and failed strikes per share beyond; more volts per mm of pit. */
  pitShows: 0.4,
  pitWanderDeg: 6,
  pitFails: 0.9,
  pitV: 6,
  /** Spent share of the electrode at which no pilot starts any more. */
  pitDead: 1.3,
  /** A spent bore: how far the arc leans to one side, deg, and growth of the jet's radius. */
  boreLeanDeg: 7,
  boreSoft: 0.25,
  /** Double arcs per second of a front that is loaded with spatter or damaged, per share beyond a half. */
  loadDoubles: 2,
  /** Time in which the wandering forgets itself, s. */
  wanderS: 0.08,

  /** Height of the tip at which it touches, mm; double arcs per second of a tip that touches where the shield may not. */
  touchMm: 0.25,
  touchDoubles: 4,
  /** A double arc: how long one lasts, s, and the share of the power that it keeps from the plate. */
  doubleS: 0.25,
  doubleShare: 0.55,

  /** Resistance of the return path, ohm, and times per second that it breaks, by what is under the clamp. */
  clampOhm: { bare: 0, 'mill-scale': 0.12, rust: 0.3, paint: 0, zinc: 0.05 },
  clampBreaksPerS: { bare: 0, 'mill-scale': 0.1, rust: 0.35, paint: 0, zinc: 0.02 },
  /** Longer that the pilot must burn before it transfers through what lies on the plate, s. */
  coatingS: { bare: 0, 'mill-scale': 0.05, rust: 0.15, paint: 0.5, zinc: 0.1 },

  /** Pit of the electrode, mm: per start, per arc torn off, per second of arc at 60 A, per second of pilot. */
  pitPerStart: 0.003,
  pitPerHardStop: 0.008,
  pitPerArcS: 0.0002,
  pitPerPilotS: 0.0004,
  /** Growth of the bore, mm: per second of arc, of double arc, of an arc stretched to its limit; per strike; per J of melt thrown at the torch. */
  borePerArcS: 0.00002,
  borePerDoubleS: 0.04,
  borePerStretchedS: 0.006,
  borePerStrike: 0.0004,
  borePerBlowbackJ: 0.00002,
  /** Share of the arc voltage limit from which on an arc is stretched. */
  stretchedShare: 0.93,
  /** Spatter on the front, share per J thrown at it; damage to the shield, share per second: dragged where it may, where it may not. */
  spatterPerBlowbackJ: 0.00006,
  dragPerS: 0.004,
  wrongDragPerS: 0.12,

  /** Gas used at 5.3 bar, litres per second. */
  gasLPerS: 2.4,
} as const;
