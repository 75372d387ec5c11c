import { type RefObject, useEffect, useState } from 'react';
import { ARC_STATES, type Drill, type PathGeometry, pathGeometry, type SpeedWindow } from '../../sim-core/index.ts';
import { wholeLeanDeg } from './cue-state.ts';
import { createGuide, type GuideRules, type GuideStep, type GuideView } from './guidance.ts';
import { leanBetweenDeg, leanRoomDeg, leanTarget } from './lean-target.ts';
import type { WorkerRun } from './worker-run.ts';

const GUIDE_EVERY_MS = 90;
/** After the cut is done the piece has time to fall before the marks come. */
const FALL_MS = 1600;
/** On an outline that meets itself the hand is looked for this far along from where it was, not on the other side of the seam. */
const LOOK_AHEAD_MM = 25;

function rulesOf(drill: Drill, geometry: PathGeometry, window: SpeedWindow | null): GuideRules {
  const { intended, tolerances, plate } = drill;
  return {
    start: drill.start,
    finish: drill.finish,
    bevelDeg: intended.bevelDeg,
    travelAngleDeg: intended.travelAngleDeg,
    surfaceWork: intended.grooveDepthMm !== null,
    openings: plate.openings !== null,
    passes: intended.passes,
    startXMm: drill.path.start.xMm,
    startYMm: drill.path.start.yMm,
    pathLengthMm: geometry.lengthMm,
    standOffLowMm: tolerances.standOffMm.low,
    standOffHighMm: tolerances.standOffMm.high,
    leanDeg: leanRoomDeg(intended, tolerances.leanDeg),
    offLineMm: tolerances.offLineMm,
    speedLowMmPerS: window?.windowLowMmPerS ?? null,
    speedHighMmPerS: window?.windowHighMmPerS ?? null,
  };
}

/** Turns the latest tick into what the guide looks at, and remembers how far along a closed outline the hand is. */
function createEye(drill: Drill, geometry: PathGeometry) {
  let alongMm = 0;
  return {
    backToStart() {
      alongMm = 0;
    },
    view({ sample, hand }: WorkerRun): GuideView {
      const foot =
        drill.finish === 'close'
          ? geometry.nearest(sample.xMm, sample.yMm, alongMm, LOOK_AHEAD_MM)
          : geometry.nearest(sample.xMm, sample.yMm);
      // Only a burning arc gets on: a hand that comes to the seam from behind is still at the start.
      if (ARC_STATES[sample.arcState] === 'transferred') alongMm = Math.max(alongMm, foot.sMm);
      return {
        xMm: sample.xMm,
        yMm: sample.yMm,
        heightMm: sample.standOffMm,
        leanDeg: wholeLeanDeg(hand.leanXDeg, hand.leanYDeg),
        offLeanDeg: leanBetweenDeg(hand, leanTarget(geometry, drill.intended, foot.sMm)),
        trigger: hand.trigger,
        arc: ARC_STATES[sample.arcState] ?? 'off',
        penetration: sample.penetration,
        underMm3PerS: sample.underMm3PerS,
        topMm3PerS: sample.topMm3PerS,
        speedMmPerS: sample.speedMmPerS,
        alongMm: foot.sMm,
        offLineMm: Math.abs(foot.offsetMm),
      };
    },
  };
}

/** What to do next while a drill is being cut; `onDone` when the line is finished and the piece has had time to fall. */
export function useGuide(
  drill: Drill,
  window: SpeedWindow | null,
  source: WorkerRun | null,
  cutting: boolean,
  progress: RefObject<HTMLElement | null>,
  onDone: () => void,
): GuideStep {
  const [step, setStep] = useState<GuideStep>('approach');
  useEffect(() => {
    if (!cutting || !source) return;
    const geometry = pathGeometry(drill.path);
    const guide = createGuide(rulesOf(drill, geometry, window));
    const eye = createEye(drill, geometry);
    let askedMs = Number.NEGATIVE_INFINITY;
    let passes = 0;
    let timer: ReturnType<typeof setTimeout> | null = null;
    setStep(guide.step);
    const stop = source.onFrame(() => {
      const now = performance.now();
      if (now - askedMs < GUIDE_EVERY_MS || !Number.isFinite(source.sample.xMm)) return;
      askedMs = now;
      setStep(guide.update(eye.view(source), now));
      if (guide.passesDone !== passes) {
        passes = guide.passesDone;
        eye.backToStart();
      }
      progress.current?.style.setProperty('--progress', String(guide.progress));
      if (guide.finished && timer === null) timer = setTimeout(onDone, FALL_MS);
    });
    return () => {
      stop();
      if (timer !== null) clearTimeout(timer);
    };
  }, [cutting, source, drill, window, progress, onDone]);
  return step;
}
