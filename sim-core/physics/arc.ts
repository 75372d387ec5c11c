import { TICK_HZ } from '../run/types.ts';
import { MODEL } from './model-constants.ts';
import type { Rig } from './rig.ts';
import type { RigMode } from './rig-fit.ts';
import { PLACES_AROUND } from './surroundings.ts';
import type { TorchFitness } from './torch-fitness.ts';
import { fallsTo, happens, type TorchLuck } from './torch-luck.ts';

export const OFF = 0;
export const PRE_FLOW = 1;
export const PILOT = 2;
export const TRANSFERRED = 3;
export const POST_FLOW = 4;

/** The arc's state between ticks. Counts are ticks. */
export interface Arc {
  /** Index into ARC_STATES. */
  phase: number;
  inPhase: number;
  /** Ticks in a row in which the transferred arc met no metal. */
  unheld: number;
  /** Ticks of pilot before the next strike is tried. */
  strikeAt: number;
  /** 1 after a pilot has timed out or an arc went out for good: the trigger must be let go first. */
  lockedOut: number;
  voltageV: number;
  /** Arcs that were torn off by their length or by the return path, before the trigger was let go. */
  hardStops: number;
  /** Starts from cold, and strikes again with the trigger held. */
  starts: number;
  restrikes: number;
}

export function createArc(): Arc {
  return {
    phase: OFF,
    inPhase: 0,
    unheld: 0,
    strikeAt: 0,
    lockedOut: 0,
    voltageV: 0,
    hardStops: 0,
    starts: 0,
    restrikes: 0,
  };
}

function enter(arc: Arc, phase: number): void {
  arc.phase = phase;
  arc.inPhase = 0;
}

/** What the arc burns on: fixed for a run. */
export interface ArcSource {
  rig: Rig;
  mode: RigMode;
  fitness: TorchFitness;
}

/**
 * What the arc is asked to span: `lengthMm` is the arc of the pose (stand-off along the axis plus the part inside the kerf),
 * `metShare` the share of the jet that finds metal, `openAround` how many of the places around the jet are open; `returns` is
 * false where the metal has no way back to the source. An arc strikes only on metal in its way, but once it burns it holds on
 * to the wall of its own hole.
 */
export interface ArcSpan {
  lengthMm: number;
  metShare: number;
  openAround: number;
  returns: boolean;
}

/** Moves the arc on by one tick. The arc's voltage is V0 + E * length, and what pit and return path add. */
export function advanceArc(arc: Arc, source: ArcSource, luck: TorchLuck, trigger: boolean, span: Readonly<ArcSpan>): void {
  const { fitness } = source;
  arc.inPhase++;
  const voltage =
    MODEL.voltageBaseV + MODEL.voltageGradientVPerMm * fitness.gradient * span.lengthMm + (fitness.returns ? fitness.addedV : 0);
  const limitV = source.rig.arcVoltageLimitV + fitness.headroomV;
  if (!trigger) arc.lockedOut = 0;
  if (!trigger && arc.phase !== OFF && arc.phase !== POST_FLOW) enter(arc, POST_FLOW);
  else if (arc.phase === OFF && trigger && arc.lockedOut === 0) {
    arc.starts++;
    enter(arc, PRE_FLOW);
  } else if (arc.phase === POST_FLOW) {
    if (trigger && arc.lockedOut === 0) {
      arc.starts++;
      strikePilot(arc, source);
    } else if (arc.inPhase >= MODEL.postFlowS * TICK_HZ) enter(arc, OFF);
  } else if (arc.phase === PRE_FLOW && arc.inPhase >= MODEL.preFlowS * TICK_HZ) strikePilot(arc, source);
  else if (arc.phase === PILOT) {
    const reachable = span.metShare > MODEL.holdShare && voltage <= limitV && span.returns;
    if (arc.inPhase >= arc.strikeAt && reachable) {
      // A strike that fails is tried again.
      if (fallsTo(luck, fitness.strikeFails)) arc.strikeAt = arc.inPhase + MODEL.strikeAgainS * TICK_HZ;
      else {
        arc.unheld = 0;
        enter(arc, TRANSFERRED);
      }
    } else if (arc.inPhase >= MODEL.longestPilotS * TICK_HZ) goOut(arc);
  } else if (arc.phase === TRANSFERRED) {
    arc.unheld = span.metShare > MODEL.holdShare || span.openAround < PLACES_AROUND ? 0 : arc.unheld + 1;
    const torn = voltage > limitV || !span.returns || happens(luck, fitness.breaksPerS);
    if (torn) arc.hardStops++;
    if (torn || arc.unheld >= MODEL.holdS * TICK_HZ) loseHold(arc, source);
  }
  arc.voltageV = arc.phase === TRANSFERRED ? voltage : 0;
}

/** The interlock and the pressure switch decide whether there is a pilot at all. */
function strikePilot(arc: Arc, source: ArcSource): void {
  if (!source.fitness.pilots) {
    goOut(arc);
    return;
  }
  arc.strikeAt = (MODEL.pilotS + source.fitness.coatingS) * TICK_HZ;
  enter(arc, PILOT);
}

/** Only a source set to bridge gaps lights the pilot again by itself. */
function loseHold(arc: Arc, source: ArcSource): void {
  if (source.mode !== 'gaps') {
    goOut(arc);
    return;
  }
  arc.restrikes++;
  arc.strikeAt = MODEL.pilotS * TICK_HZ;
  enter(arc, PILOT);
}

function goOut(arc: Arc): void {
  arc.lockedOut = 1;
  enter(arc, POST_FLOW);
}
