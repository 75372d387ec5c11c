import { HAND_FORMAT, HAND_FORMAT_VERSION, type HandScript, type HandStep } from '../drill/hand-script-schema.ts';
import { pathGeometry } from '../drill/path-geometry.ts';
import { PIERCES } from '../drill/pierce-motions.ts';
import type { Drill } from '../drill/schema.ts';
import { RAD_PER_DEG, tan } from '../math/elementary.ts';
import { type HandWindow, speedMmPerS } from './hand-window.ts';

/** Where in the speed window the reference hand travels: its middle. */
const SPEED_IN_WINDOW = 0.5;

/** How hard the hand leans on a straight edge or a template: as if it wanted to go so far past it, mm. */
const LEANS_ON_GUIDE_MM = 2.5;

/** From this thickness on the arc is led out at the far edge, mm: there the bottom of the front lags by more than a hand follows through. */
const LED_OUT_FROM_MM = 8;
/**
 * Push lean with which the arc leads out, deg. As the torch leans, the bottom of the front is asked to advance faster than the
 * top, by this share of the speed: the hand goes so much slower meanwhile, and takes the way that this needs.
 */
const LEAD_OUT_DEG = 15;
const LEAD_OUT_FASTER_BELOW = 0.3;
const LEAD_OUT_IN_WINDOW = 0;

/** Past the place where a closed outline meets itself, mm. */
const OVERLAP_MM = 1.5;

/** Longest pause at a mark before the trigger is let go, s. */
const LONGEST_PAUSE_AT_END_S = 0.7;

/** Longest wait for a hole, s, beyond three times the pause at an edge. */
const PATIENCE_S = 10;

/**
 * The hand that does it right, derived from the drill and the core's answers alone: start at the edge or by the pierce that is
 * asked for, wait until the sparks come through, off at mid-window speed, at the lean and mid-band height that are intended,
 * to the end as the drill wants it, let go. It has the tremor and the reaction time of a practised person.
 */
export function referenceHand(drill: Drill, window: HandWindow): HandScript {
  const { guide } = drill;
  const steps: HandStep[] = drill.intended.grooveDepthMm === null ? cutSteps(drill, window) : grooveSteps(drill);
  const bearing = guide.kind === 'straight-edge' || guide.kind === 'template' ? guide.side : null;
  const bearsLeftMm = bearing === 'left' ? LEANS_ON_GUIDE_MM : -LEANS_ON_GUIDE_MM;
  return {
    format: HAND_FORMAT,
    formatVersion: HAND_FORMAT_VERSION,
    name: 'Reference hand',
    habits: {
      tremorMm: 0.1,
      heightTremorMm: 0.1,
      leanTremorDeg: 0.8,
      reactionS: 0.15,
      ...(bearing === null ? {} : { bearsLeftMm }),
    },
    steps: [...steps, { do: 'wait', for: 'seconds', seconds: 0.5 }],
  };
}

/** Height at which the reference hand cuts, mm. */
export function cuttingHeightMm(drill: Drill): number {
  const { low, high } = drill.tolerances.standOffMm;
  return low < 1.5 && high >= 1.5 ? 1.5 : (low + high) / 2;
}

function cutSteps(drill: Drill, window: HandWindow): HandStep[] {
  return [...startSteps(drill, window), ...finishSteps(drill, window), { do: 'trigger', on: false }];
}

/** To the start, trigger, and at cutting height once the arc is through. */
function startSteps(drill: Drill, window: HandWindow): HandStep[] {
  const { start, intended } = drill;
  const heightMm = cuttingHeightMm(drill);
  const through: HandStep = { do: 'wait', for: 'break-through', atMostS: (window.edgeDwellS ?? 0) * 3 + PATIENCE_S };
  const bevel: HandStep[] = intended.bevelDeg === 0 ? [] : [{ do: 'lean', workAngleDeg: intended.bevelDeg, overS: 0.3 }];
  const ready: HandStep[] = [
    { do: 'wait', for: 'seconds', seconds: 0.2 },
    { do: 'trigger', on: true },
  ];
  if (start === 'edge') return [{ do: 'place', at: { alongMm: 0 }, heightMm }, ...bevel, ...ready, through];
  const pierce = PIERCES[start];
  const place: HandStep = { do: 'place', at: { alongMm: 0 }, heightMm: pierce.heightMm };
  // Down to cutting height while the hand moves off: an arc that has to span the hole it has made is soon lost.
  const down: HandStep = { do: 'height', heightMm, overS: 0.3, meanwhile: true };
  if (pierce.leanDeg === 0) return [place, ...ready, through, down, ...bevel];
  const about = 'tip';
  return [
    place,
    { do: 'lean', travelAngleDeg: -pierce.leanDeg, overS: 0.3, about },
    ...ready,
    { do: 'wait', for: 'arc', atMostS: PATIENCE_S },
    { do: 'lean', travelAngleDeg: 0, overS: pierce.rollS, about, meanwhile: true },
    through,
    { do: 'lean', travelAngleDeg: 0, overS: 0.3, about, meanwhile: true },
    down,
    ...bevel,
  ];
}

/** Along the line to its end, as the drill wants it. */
function finishSteps(drill: Drill, window: HandWindow): HandStep[] {
  const { finish, plate, tolerances } = drill;
  const speed = { inWindow: SPEED_IN_WINDOW };
  if (finish === 'stop') {
    // The bottom of the front needs about the pause of an edge to come up.
    const pauseS = window.edgeDwellS ?? 0;
    const seconds = pauseS < LONGEST_PAUSE_AT_END_S ? pauseS : LONGEST_PAUSE_AT_END_S;
    return [
      { do: 'move', to: { alongShare: 1 }, speed },
      { do: 'wait', for: 'seconds', seconds },
    ];
  }
  const overrunMm = (wanted: number): number => (wanted < tolerances.overrunMm ? wanted : tolerances.overrunMm);
  const { lengthMm } = pathGeometry(drill.path);
  if (finish === 'close') {
    // Slower over the last of it, so that the bottom is there when the outline meets itself.
    return [
      { do: 'move', to: { alongMm: lengthMm - plate.thicknessMm }, speed },
      { do: 'move', to: { pastEndMm: overrunMm(OVERLAP_MM + plate.thicknessMm / 8) }, speed: { inWindow: 0 } },
    ];
  }
  // Past the edge the front still lags: the hand goes on by as much again as the plate is thick, within what may burn on.
  const pastEndMm = overrunMm(plate.thicknessMm / 2 + 3);
  if (plate.thicknessMm < LED_OUT_FROM_MM) return [{ do: 'move', to: { pastEndMm }, speed }];
  const leadOut = { inWindow: LEAD_OUT_IN_WINDOW };
  const wayMm = (plate.thicknessMm * tan(LEAD_OUT_DEG * RAD_PER_DEG)) / LEAD_OUT_FASTER_BELOW;
  const overS = wayMm / speedMmPerS(leadOut, window);
  return [
    { do: 'move', to: { alongMm: lengthMm - wayMm }, speed },
    { do: 'lean', travelAngleDeg: -LEAD_OUT_DEG, overS, meanwhile: true },
    { do: 'move', to: { pastEndMm }, speed: leadOut },
  ];
}

/** A groove or a line: leaned as intended before the arc, off as soon as it holds, as often as the drill has passes. */
function grooveSteps(drill: Drill): HandStep[] {
  const { intended, finish, tolerances } = drill;
  const heightMm = cuttingHeightMm(drill);
  const speed = { inWindow: SPEED_IN_WINDOW };
  const lean: HandStep[] = [];
  if (intended.travelAngleDeg !== null || intended.bevelDeg !== 0) {
    const band = intended.travelAngleDeg ?? { low: 0, high: 0 };
    lean.push({ do: 'lean', travelAngleDeg: (band.low + band.high) / 2, workAngleDeg: intended.bevelDeg, overS: 0.3 });
  }
  const to = finish === 'run-off' ? { pastEndMm: tolerances.overrunMm < 3 ? tolerances.overrunMm : 3 } : { alongShare: 1 };
  const steps: HandStep[] = [];
  for (let pass = 0; pass < intended.passes; pass++) {
    steps.push({ do: 'place', at: { alongMm: 0 }, heightMm });
    if (pass === 0) steps.push(...lean);
    steps.push(
      { do: 'wait', for: 'seconds', seconds: 0.2 },
      { do: 'trigger', on: true },
      { do: 'wait', for: 'arc', atMostS: PATIENCE_S },
      { do: 'move', to, speed },
      { do: 'trigger', on: false },
    );
  }
  return steps;
}
