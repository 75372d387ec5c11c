/**
 * Every tunable figure of the bench's sound, once, with unit and range. What an arc sounds like has no source here: all of it is a
 * design default, set so that what differs at the metal differs to the ear. Nothing is a recording.
 */
export const SOUND = {
  /** Level under which a layer is silence, share of its full level. Range 0.02 to 0.1. */
  audible: 0.05,
  /** Gas at the torch that hisses at full level, bar, and time over which the valve opens, s. */
  fullGasBar: 5,
  gasRiseS: 0.12,
  /** Share of the gas that is heard beside the arc. Range 0 to 1. */
  gasBesideArc: 0.35,
  /** Gas flow after the arc over which its hiss fades to nothing, s: the core's own post-flow. */
  gasFadeS: 3,

  /** Pitch of the arc at this voltage, Hz and V, and the power by which it climbs with the voltage. */
  toneHz: 120,
  toneVoltageV: 100,
  tonePower: 2.4,
  /** Voltage above which the pitch climbs no more, V. */
  highestVoltageV: 300,
  /** Arc voltage that counts as no length at all, V; the rig's limit counts as all the length there is. */
  shortArcV: 96,
  /** Roughness, 0 to 1: of the shortest arc, and what is added by all the length, by this much wandering (deg) and by double arcs. */
  roughShort: 0.12,
  roughLong: 0.6,
  roughWanderDeg: 6,
  roughWander: 0.5,
  roughDouble: 0.4,
  /** Edge of the arc's noise, Hz: of the shortest blind arc, and what all the length adds; an open kerf takes this share away. */
  brightHz: 2600,
  brightLongHz: 3600,
  brightOpenShare: 0.62,
  /** Level of the arc at the smallest current, and what the root of the current over 100 A adds. */
  arcLow: 0.45,
  arcCurrent: 0.55,
  /** Metal to a side at which that side is heard in full, mm3/s, and rate under which a share of it means nothing. */
  fullSprayMm3PerS: 160,
  faintMm3PerS: 4,
  /** Level of the jet below where all of the metal leaves below, and what all power passing through adds. */
  underOpen: 0.45,
  underHollow: 0.55,
  /** Double arcs: level from the least that can be told (share of the power), and what all of it adds. */
  doubleLeast: 0.02,
  doubleLow: 0.4,
  doubleMore: 0.6,
  /** Length of the break when the arc is lost, and of the softer one when it is let go, s. */
  lostS: 0.3,
  outS: 0.2,

  /** Time constant with which every level and pitch follows, s; of the volume, s. Range 0.01 to 0.05. */
  followS: 0.018,
  volumeS: 0.03,
  /** Nothing louder than this leaves the bench at full volume: share of full scale, -6.02 dBFS. */
  ceiling: 0.5,
  /** Seed and length of the made noise, s. */
  noiseSeed: 20_77,
  noiseS: 3,
  /** Impulses a second of the crackle, and time in which each dies to 1/e, s. */
  cracklePerS: 190,
  crackleDecayS: 0.0016,
} as const;

/** Gain of each layer in the mix before the limiter. */
export const LAYER_GAIN = {
  gas: 0.045,
  pilot: 0.22,
  arc: 0.5,
  under: 1.1,
  spray: 0.42,
  double: 0.4,
  lost: 0.8,
  out: 0.45,
} as const;
export type SoundLayer = keyof typeof LAYER_GAIN;
export const SOUND_LAYERS = Object.keys(LAYER_GAIN) as readonly SoundLayer[];
