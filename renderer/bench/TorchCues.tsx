import { type RefObject, useEffect, useMemo, useRef } from 'react';
import { Vector3 } from 'three';
import { type Drill, pathGeometry, type SpeedWindow, TICK_HZ } from '../../sim-core/index.ts';
import type { RunSource } from '../scene/run-source.ts';
import type { SceneHandle } from '../scene/scene-handle.ts';
import type { TextKey } from '../text/en.ts';
import { say } from '../text/say.ts';
import { type CueVerdict, cueState } from './cue-state.ts';
import type { GuideStep } from './guidance.ts';
import { leanRoomDeg, leanTarget } from './lean-target.ts';
import { createPace } from './pace.ts';
import { speedBandOf } from './speed-band.ts';
import { alongHandle, FAN, fanFoot, GHOST_MM, onRibbon, RIBBON, RING, ringRadius, standAside } from './torch-cues.ts';

export interface TorchCuesProps {
  source: RunSource;
  drill: Drill;
  window: SpeedWindow;
  scene: SceneHandle;
  /** The frame that the torch is seen in. */
  frame: RefObject<HTMLElement | null>;
  step: GuideStep;
  /** A mark that goes ahead along the line at the right speed, for whoever does not know it yet. */
  paced: boolean;
}

const READ_MS = 70;
const SPEED_MEMORY_MS = 180;
/** Steps in which the torch has still to be brought to the start. */
const TO_THE_START: ReadonlySet<GuideStep> = new Set(['approach', 'lower', 'raise', 'strike', 'no-metal', 'pull-again']);

/**
 * The cues of the panel once more where the eyes are: a ring about the tip that grows with stand-off, a ribbon below it for speed,
 * a fan for the sparks, and the handle's own line beside the line it should have. The panel says the same in words and figures.
 */
export function TorchCues({ source, drill, window, scene, frame, step, paced }: TorchCuesProps) {
  const root = useRef<HTMLDivElement>(null);
  const latest = useRef(step);
  latest.current = step;
  const geometry = useMemo(() => pathGeometry(drill.path), [drill]);
  const { tolerances, intended } = drill;
  const { low, high } = tolerances.sparkAngleDeg;

  useEffect(() => {
    const [cues, within] = [root.current, frame.current];
    if (!cues || !within) return;
    const part = (name: string) => cues.querySelector<SVGElement>(`[data-part="${name}"]`);
    const [about, ring, mark, ray, now, wanted] = ['about', 'ring', 'mark', 'ray', 'now', 'wanted'].map(part);
    const [start, pace, word, sparkWord, aside] = ['start', 'pace', 'word', 'spark-word', 'aside'].map(part);
    const band = speedBandOf(window);
    const pacer = createPace((band.low + band.high) / 2, geometry.lengthMm);
    const room = leanRoomDeg(intended, tolerances.leanDeg);
    const point = new Vector3();
    let width = within.clientWidth;
    let height = within.clientHeight;
    const sized = new ResizeObserver(() => {
      width = within.clientWidth;
      height = within.clientHeight;
    });
    sized.observe(within);
    const seen = (x: number, y: number, z: number) => {
      point.set(x, y, z).project(scene.camera as NonNullable<SceneHandle['camera']>);
      return { x: ((point.x + 1) / 2) * width, y: ((1 - point.y) / 2) * height };
    };
    const put = (element: SVGElement | null | undefined, at: { x: number; y: number } | null) => {
      if (!element) return;
      element.style.display = at === null ? 'none' : '';
      // Whole pixels, so that what was painted once is only moved.
      if (at) element.style.transform = `translate(${Math.round(at.x)}px, ${Math.round(at.y)}px)`;
    };
    const judge = (element: SVGElement | null | undefined, verdict: CueVerdict) => {
      if (element && element.dataset.verdict !== verdict) element.dataset.verdict = verdict;
    };
    let even = 0;
    let readMs = Number.NEGATIVE_INFINITY;

    const read = (elapsedMs: number, sMm: number) => {
      const { sample, hand } = source;
      const speed = Number.isFinite(sample.speedMmPerS) ? sample.speedMmPerS : 0;
      even += (speed - even) * (1 - Math.exp(-elapsedMs / SPEED_MEMORY_MS));
      const aim = { ...leanTarget(geometry, intended, sMm), roomDeg: room };
      const state = cueState({ ...sample, speedMmPerS: even }, hand.leanXDeg, hand.leanYDeg, tolerances, window, aim);
      ring?.setAttribute('r', ringRadius(sample.standOffMm, tolerances.standOffMm.low, tolerances.standOffMm.high).toFixed(1));
      mark?.setAttribute('transform', `translate(${(RIBBON.left + onRibbon(even, band.low, band.high)).toFixed(1)} 0)`);
      const foot = state.spark === 'none' || state.spark === 'top' ? null : fanFoot(sample.sparkAngleDeg);
      ray?.setAttribute('d', foot ? `M${FAN.x} ${FAN.y}L${foot.x.toFixed(1)} ${foot.y.toFixed(1)}` : '');
      judge(ring, state.standOff);
      judge(mark, state.speed);
      judge(ray, state.spark);
      judge(now, state.lean);
      if (word) word.textContent = say(state.speed === 'still' ? 'cue.still' : (`cue.${state.speed}.speed` as TextKey));
      if (sparkWord) sparkWord.textContent = state.spark === 'top' ? say('cue.top.spark') : '';
    };

    const draw = () => {
      const { sample, hand, tick } = source;
      if (!scene.camera || !Number.isFinite(sample.xMm)) return;
      const tip = { xMm: sample.xMm, yMm: sample.yMm, heightMm: sample.standOffMm };
      const sMm = geometry.nearest(tip.xMm, tip.yMm).sMm;
      const at0 = seen(tip.xMm, tip.yMm, tip.heightMm);
      put(about, at0);
      const shift = `translate(${Math.round(standAside(at0.x, width))} 0)`;
      if (aside?.getAttribute('transform') !== shift) aside?.setAttribute('transform', shift);
      const line = (element: SVGElement | null | undefined, leanXDeg: number, leanYDeg: number) => {
        const from = alongHandle(tip, leanXDeg, leanYDeg, GHOST_MM.from);
        const to = alongHandle(tip, leanXDeg, leanYDeg, GHOST_MM.to);
        const [a, b] = [seen(from.x, from.y, from.z), seen(to.x, to.y, to.z)];
        const off = (place: { x: number; y: number }) => `${Math.round(place.x - at0.x)} ${Math.round(place.y - at0.y)}`;
        const d = `M${off(a)}L${off(b)}`;
        if (element?.getAttribute('d') !== d) element?.setAttribute('d', d);
      };
      const aim = leanTarget(geometry, intended, sMm);
      line(now, hand.leanXDeg, hand.leanYDeg);
      line(wanted, aim.leanXDeg, aim.leanYDeg);
      // Both marks lie at the height of the tip, where the hand has to bring it.
      const at = (placeMm: number) => {
        const { xMm, yMm } = geometry.pointAt(placeMm);
        return seen(xMm, yMm, tip.heightMm);
      };
      put(start, TO_THE_START.has(latest.current) ? at(0.4) : null);
      const placeMm = paced ? pacer.at(latest.current, tick / TICK_HZ, sMm) : null;
      put(pace, placeMm === null ? null : at(placeMm));
      const nowMs = performance.now();
      if (nowMs - readMs < READ_MS) return;
      read(Math.min(1000, nowMs - readMs), sMm);
      readMs = nowMs;
    };
    const stop = scene.onDrawn(draw);
    return () => {
      stop();
      sized.disconnect();
    };
  }, [source, scene, frame, geometry, intended, tolerances, window, paced]);

  const [a, b] = [fanFoot(low), fanFoot(high)];
  const third = RIBBON.width / 3;
  return (
    <div className="torch-cues" ref={root} aria-hidden="true">
      <svg className="start-mark" data-part="start" style={{ display: 'none' }} aria-hidden="true" focusable="false">
        <circle r={13} />
        <path d="M-20 0h12M8 0h12M0 -20v12M0 8v12" />
      </svg>
      <svg className="pace-mark" data-part="pace" style={{ display: 'none' }} aria-hidden="true" focusable="false">
        <path d="M0 -11L11 0L0 11L-11 0Z" />
      </svg>
      <svg data-part="about" style={{ display: 'none' }} aria-hidden="true" focusable="false">
        <path className="ghost-wanted" data-part="wanted" d="" />
        <path className="ghost-now" data-part="now" d="" />
        <circle className="cue-thin" r={RING.low} />
        <circle className="cue-thin" r={RING.high} />
        <circle className="cue-live" data-part="ring" r={RING.low} />
        <g data-part="aside">
          <rect className="ribbon-ground" x={RIBBON.left} y={RIBBON.top} width={RIBBON.width} height={RIBBON.height} />
          <rect className="cue-band" x={RIBBON.left + third} y={RIBBON.top} width={third} height={RIBBON.height} />
          <g data-part="mark" className="ribbon-mark">
            <path d={`M0 ${RIBBON.top - 3}l7 -9h-14zM-2 ${RIBBON.top - 3}h4v${RIBBON.height + 6}h-4z`} />
          </g>
          <text className="ribbon-word" data-part="word" x={0} y={RIBBON.top + RIBBON.height + 19} textAnchor="middle" />
          <path
            className="ribbon-ground"
            d={`M${FAN.x} ${FAN.y}v${FAN.length}A${FAN.length} ${FAN.length} 0 0 1 ${FAN.x - FAN.length} ${FAN.y}Z`}
          />
          <path
            className="cue-band"
            d={`M${FAN.x} ${FAN.y}L${a.x.toFixed(1)} ${a.y.toFixed(1)}A${FAN.length} ${FAN.length} 0 0 1 ${b.x.toFixed(1)} ${b.y.toFixed(1)}Z`}
          />
          <path className="fan-ray" data-part="ray" d="" />
          <text className="ribbon-word" data-part="spark-word" x={FAN.x - 20} y={FAN.y + FAN.length + 20} textAnchor="middle" />
        </g>
      </svg>
    </div>
  );
}
