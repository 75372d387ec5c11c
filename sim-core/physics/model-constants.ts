/**
 * Every tunable figure of the arc and metal model, once, with unit, range and source.
 * 'Design default' means that no allowed source gives it; it was set so that the properties of the trade come out.
 */
export const MODEL = {
  /** Side of a metal cell, mm. Range 0.125 to 0.5. Design default. */
  cellMm: 0.25,
  /** Wanted thickness of a metal layer, mm; at least 8 layers. Design default. */
  layerMm: 0.5,
  /** Side of a heat cell, mm; range 0.5 to 1. Design default. */
  heatCellMm: 1,
  /** Metal layers to one heat layer. Design default. */
  layersPerHeatLayer: 4,

  /** Share of electrical power that arrives at the metal or in the hole. Design default, range 0.6 to 0.85. */
  arcEfficiency: 0.8,
  /** Arc voltage at zero length, V. Air arcs of 30 to 100 A run at about 90 to 160 V (from memory, low confidence). */
  voltageBaseV: 96,
  /** Arc voltage per mm of arc, V/mm. Order of 5 to 10 V/mm of stand-off (from memory, low confidence); design default. */
  voltageGradientVPerMm: 3.6,

  /** Radius of the jet at the nozzle, mm, at 45 A; grows with a power of the current. Design default. */
  jetRadiusAt45AMm: 1.1,
  /** Power of the current by which the jet's radius grows. 0.5 is bore area in proportion to current; less, because flux rises with current. */
  jetRadiusPower: 0.28,
  /** Growth of the jet's radius per mm along its axis, in the open above the plate and inside the kerf. Design defaults, range 0.05 to 0.15. */
  openSpread: 0.05,
  jetSpread: 0.13,
  /** Shape b of the jet's profile (1 - p)(1 + b p), p = (r/R)^2: 0 a parabola, above flatter, below softer at the rim; range -1 to 1. Design default. */
  jetShape: 1,
  /** Growth of the jet's radius, as a share, when all of it passes through: too slow a travel widens the kerf (V. Nemchinsky, J. Phys. D 31 (1998) 3102, from memory, low confidence). Design default, range 0 to 0.3. */
  jetFlare: 0.06,
  /** Greatest depth that the middle of the jet may eat in one part of a tick, mm; also at most a sixth of the plate. Numerical, design default. */
  longestBiteMm: 0.5,
  /** Conductance from the lit surface to the heat cell under it: k over this depth, mm. Design default, range 0.1 to 0.6. */
  contactDepthMm: 0.18,

  /** Way down the kerf over which the walls take all but 1/e of the heat of a jet of 1 mm radius, mm; grows with the square root of the radius. Design default, range 4 to 9. */
  wallLossMm: 7,
  /** Climb of melt out of a blind hole, in widths of a hole of this radius, mm, that halves what gets out; it grows with the root of the radius. Design defaults. */
  climbWidths: 0.755,
  climbRadiusMm: 1.3,
  /** Rise over run of a ramp that melt is blown up without loss. Design default. */
  rampSlope: 0.5,
  /** Heat of a cubic millimetre thrown out for which that holds, J/mm3 (about that of steel), and the powers by which more melt to the joule hinders, more current helps. Design defaults. */
  liftHeatJPerMm3: 12,
  liftMeltPower: 4.4,
  liftCurrentPower: 4,
  /** Share of the heat of a jet that glances along the floor of a blind groove which the gas carries off. Design default, range 0.5 to 1. */
  glanceShare: 0.6,
  /** Growth of the radius of a jet that glances so, as a share. Design default. */
  glanceSpread: 0.7,
  /** Where a moving torch runs out of the plate its arc must reach back to the front: so much longer, as a share of its depth. Design default. */
  reachBack: 2.5,
  /** Speed at which half of that shows, mm/s, and the time over which the travel is taken, s: longer than a hand trembles. Design defaults. */
  reachBackMmPerS: 1,
  driftS: 0.4,
  /** Open share of the ring or the footprint at which all melt leaves below. Design default. */
  ventShare: 0.04,

  /** Delay of the filter on the spark angle, s, in three equal stages; stated bound 60 ms. */
  sparkFilterS: 0.06,
  /** Share of the thickness above the underside over which the front's slope counts: the definition of the spark angle. */
  sparkDepthShare: 0.4,

  /** Gas flow before the pilot, pilot before it may transfer, and gas flow after, s. Design defaults. */
  preFlowS: 0.3,
  pilotS: 0.1,
  postFlowS: 3,
  /** Time after which a strike that failed is tried again, s. Design default. */
  strikeAgainS: 0.15,
  /** Longest pilot without transfer before it is shut off, s. Design default. */
  longestPilotS: 3,
  /** Absorbed share of the jet under which there is nothing to hold the arc. Design default. */
  holdShare: 0.01,
  /** Time without metal under the jet after which the arc lets go, s. Design default. */
  holdS: 0.03,

  /** Radius of the torch front as seen by spatter, mm: the face around the nozzle. Design default. */
  torchFrontRadiusMm: 5,
  /** Slope of the floor under the jet over that of the ground around it. Design default. */
  floorShare: 0.5,
  /** Powers of the cosine about its middle by which a shallow crater and a hole as deep as wide throw melt. Design defaults. */
  shallowLobePower: 0.5,
  deepLobePower: 4,
} as const;
