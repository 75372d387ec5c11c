import { TICK_HZ } from '../run/types.ts';
import { MODEL } from './model-constants.ts';
import type { Rig } from './rig.ts';
import { PLACES_AROUND } from './surroundings.ts';

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
  /** 1 after a pilot has timed out: the trigger must be let go first. */
  lockedOut: number;
  voltageV: number;
  /** Starts from cold, and strikes again with the trigger held. */
  starts: number;
  restrikes: number;
}

export function createArc(): Arc {
  return { phase: OFF, inPhase: 0, unheld: 0, lockedOut: 0, voltageV: 0, starts: 0, restrikes: 0 };
}

/** Arc voltage, V, of an arc of so many mm: V0 + E * length. */
export function arcVoltageV(lengthMm: number): number {
  return MODEL.voltageBaseV + MODEL.voltageGradientVPerMm * lengthMm;
}

function enter(arc: Arc, phase: number): void {
  arc.phase = phase;
  arc.inPhase = 0;
}

/**
 * What the arc is asked to span: `lengthMm` is the arc of the pose (stand-off along the axis plus the part inside the kerf),
 * `metShare` the share of the jet that finds metal with a way back to the source, `openAround` how many of the places
 * around the jet are open. An arc strikes only on metal in its way, but once it burns it holds on to the wall of its own hole.
 */
export interface ArcSpan {
  lengthMm: number;
  metShare: number;
  openAround: number;
}

/** Moves the arc on by one tick. */
export function advanceArc(arc: Arc, rig: Rig, trigger: boolean, span: Readonly<ArcSpan>): void {
  const { lengthMm, metShare, openAround } = span;
  arc.inPhase++;
  const voltage = arcVoltageV(lengthMm);
  const reachable = metShare > MODEL.holdShare && voltage <= rig.arcVoltageLimitV;
  if (!trigger) arc.lockedOut = 0;
  if (!trigger && arc.phase !== OFF && arc.phase !== POST_FLOW) enter(arc, POST_FLOW);
  else if (arc.phase === OFF && trigger && arc.lockedOut === 0) {
    arc.starts++;
    enter(arc, PRE_FLOW);
  } else if (arc.phase === POST_FLOW) {
    if (trigger && arc.lockedOut === 0) {
      arc.starts++;
      enter(arc, PILOT);
    } else if (arc.inPhase >= MODEL.postFlowS * TICK_HZ) enter(arc, OFF);
  } else if (arc.phase === PRE_FLOW && arc.inPhase >= MODEL.preFlowS * TICK_HZ) enter(arc, PILOT);
  else if (arc.phase === PILOT) {
    if (arc.inPhase >= MODEL.pilotS * TICK_HZ && reachable) {
      arc.unheld = 0;
      enter(arc, TRANSFERRED);
    } else if (arc.inPhase >= MODEL.longestPilotS * TICK_HZ) {
      arc.lockedOut = 1;
      enter(arc, POST_FLOW);
    }
  } else if (arc.phase === TRANSFERRED) {
    arc.unheld = metShare > MODEL.holdShare || openAround < PLACES_AROUND ? 0 : arc.unheld + 1;
    if (voltage > rig.arcVoltageLimitV || arc.unheld >= MODEL.holdS * TICK_HZ) {
      arc.restrikes++;
      enter(arc, PILOT);
    }
  }
  arc.voltageV = arc.phase === TRANSFERRED ? voltage : 0;
}
