import type { Drill } from '../drill/schema.ts';
import { setupFromDrill } from '../drill/setup-from-drill.ts';
import { clamp, RAD_PER_DEG, tan } from '../math/elementary.ts';
import { quantiseHand } from '../run/hand-input.ts';
import { createSimulation } from '../run/simulation.ts';
import { ARC_STATES, TICK_HZ } from '../run/types.ts';
import { PIERCES } from './pierces.ts';

const TRANSFERRED = ARC_STATES.indexOf('transferred');
const LONGEST_S = 12;
const PLATE_MM = 60;

/** What the core says of a pierce done as it should be: time from the arc on the metal to break-through, dose until then. */
export interface PierceAnswer {
  throughS: number | null;
  blowbackMj: number;
}

const known = new Map<string, PierceAnswer>();

/** The drill's metal pierced with its own rig, as it should be fitted out, by the motion the drill asks for; null for a start at the edge. */
export function pierceAnswer(drill: Drill): PierceAnswer | null {
  if (drill.start === 'edge') return null;
  const setup = setupFromDrill({ ...drill, faults: [] }, 0);
  const { cutouts: _cutouts, supports: _supports, ...rest } = setup;
  const key = JSON.stringify([drill.start, rest]);
  const before = known.get(key);
  if (before) return before;
  const simulation = createSimulation({ ...rest, lengthMm: PLATE_MM, widthMm: PLATE_MM });
  const { leanDeg, heightMm, rollS } = PIERCES[drill.start];
  let litTicks = 0;
  let answer: PierceAnswer = { throughS: null, blowbackMj: 0 };
  for (let tick = 0; tick < LONGEST_S * TICK_HZ; tick++) {
    const left = rollS > 0 ? 1 - clamp(litTicks / (rollS * TICK_HZ), 0, 1) : 1;
    const leanXDeg = -leanDeg * left;
    const xMm = PLATE_MM / 2 + tan(leanXDeg * RAD_PER_DEG) * heightMm;
    simulation.step(quantiseHand({ xMm, yMm: PLATE_MM / 2, heightMm, leanXDeg, leanYDeg: 0, trigger: true }));
    if (simulation.sample.arcState === TRANSFERRED) litTicks++;
    answer = { throughS: null, blowbackMj: simulation.sample.blowbackMj };
    if (litTicks > 0 && simulation.isOpenAlongAxis(PLATE_MM / 2, PLATE_MM / 2, leanXDeg, 0)) {
      answer.throughS = litTicks / TICK_HZ;
      break;
    }
  }
  known.set(key, answer);
  return answer;
}
