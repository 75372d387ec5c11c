import { useEffect, useMemo, useRef } from 'react';
import { type Drill, pathGeometry, type SpeedWindow } from '../../sim-core/index.ts';
import type { RunSource } from '../scene/run-source.ts';
import type { TextKey } from '../text/en.ts';
import { say } from '../text/say.ts';
import { band, quantity, type UnitSystem } from '../ui/units.ts';
import { type CueState, cueState } from './cue-state.ts';
import { leanRoomDeg, leanTarget } from './lean-target.ts';
import { speedBandOf } from './speed-band.ts';

export interface CuePanelProps {
  source: RunSource;
  drill: Drill;
  window: SpeedWindow;
  units: UnitSystem;
}

/** Redrawn this often at most: faster than it can be read, slower than the run. */
const REDRAW_MS = 100;
const SPEED_MEMORY_MS = 180;
const RULE = { left: 8, width: 204 } as const;
const FAN = { x: 62, y: 12, length: 62 } as const;

/** A place on a rule whose band takes up the middle third; beyond its ends the mark stays at the end. */
function onRule(value: number, low: number, high: number): number {
  const share = 1 / 3 + (value - low) / (high - low) / 3;
  return RULE.left + RULE.width * Math.min(1, Math.max(0, share));
}

/** Foot of a ray that hangs from the plate and trails to the left by an angle. */
function fanPoint(deg: number, length: number): string {
  const angle = (Math.min(89, Math.max(-60, deg)) * Math.PI) / 180;
  return `${(FAN.x - Math.sin(angle) * length).toFixed(1)} ${(FAN.y + Math.cos(angle) * length).toFixed(1)}`;
}

function Rule({ low, high }: { low: string; high: string }) {
  const third = RULE.width / 3;
  return (
    <>
      <path className="cue-line" d={`M${RULE.left} 22H${RULE.left + RULE.width}`} />
      <rect className="cue-band" x={RULE.left + third} y={13} width={third} height={18} />
      <text className="cue-tick" x={RULE.left + third} y={45} textAnchor="middle">
        {low}
      </text>
      <text className="cue-tick" x={RULE.left + 2 * third} y={45} textAnchor="middle">
        {high}
      </text>
    </>
  );
}

/**
 * Live cues: each a figure, a word, and a drawing with its band. The run goes by too fast for React, so the frame listener
 * writes into the drawn elements.
 */
export function CuePanel({ source, drill, window, units }: CuePanelProps) {
  const { tolerances, intended } = drill;
  const aimed = intended.bevelDeg !== 0 || intended.travelAngleDeg !== null;
  const root = useRef<HTMLDivElement>(null);
  const speedBand = useMemo(() => speedBandOf(window), [window]);
  const { standOffMm, sparkAngleDeg } = tolerances;
  const roomDeg = leanRoomDeg(intended, tolerances.leanDeg);

  useEffect(() => {
    const panel = root.current;
    if (!panel) return;
    const part = (name: string) => panel.querySelector<SVGElement | HTMLElement>(`[data-part="${name}"]`);
    const parts = new Map(
      ['speed', 'spark', 'stand-off', 'lean'].map((name) => [
        name,
        { box: part(name), value: part(`${name}-value`), word: part(`${name}-word`), mark: part(`${name}-mark`) },
      ]),
    );
    const put = (name: string, value: string, word: TextKey, verdict: string) => {
      const to = parts.get(name);
      if (to?.value) to.value.textContent = value;
      if (to?.word) to.word.textContent = say(word);
      if (to?.box) to.box.dataset.verdict = verdict;
    };
    const geometry = pathGeometry(drill.path);
    let even = 0;
    const draw = (elapsedMs: number) => {
      const { hand } = source;
      // A speed that flickers cannot be read; the other figures are steady by themselves.
      const speed = Number.isFinite(source.sample.speedMmPerS) ? source.sample.speedMmPerS : 0;
      even += (speed - even) * (1 - Math.exp(-elapsedMs / SPEED_MEMORY_MS));
      const sample = { ...source.sample, speedMmPerS: even };
      const along = Number.isFinite(sample.xMm) ? geometry.nearest(sample.xMm, sample.yMm).sMm : 0;
      const aim = { ...leanTarget(geometry, intended, along), roomDeg };
      const state: CueState = cueState(sample, hand.leanXDeg, hand.leanYDeg, tolerances, window, aim);
      put(
        'speed',
        quantity(sample.speedMmPerS, 'mm/s', units),
        state.speed === 'still' ? 'cue.still' : `cue.${state.speed as 'ok'}.speed`,
        state.speed,
      );
      put('spark', quantity(sample.sparkAngleDeg, 'deg', units), `cue.${state.spark as 'ok'}.spark`, state.spark);
      put('stand-off', quantity(sample.standOffMm, 'mm', units), `cue.${state.standOff as 'ok'}.stand-off`, state.standOff);
      put(
        'lean',
        quantity(state.leanDeg, 'deg', units),
        `cue.${state.lean as 'ok'}.${aimed ? 'lean-aimed' : 'lean'}`,
        state.lean,
      );
      const speedX = onRule(Number.isFinite(sample.speedMmPerS) ? sample.speedMmPerS : 0, speedBand.low, speedBand.high);
      parts.get('speed')?.mark?.setAttribute('transform', `translate(${speedX.toFixed(1)} 0)`);
      const heightX = onRule(Number.isFinite(sample.standOffMm) ? sample.standOffMm : 0, standOffMm.low, standOffMm.high);
      parts.get('stand-off')?.mark?.setAttribute('transform', `translate(${heightX.toFixed(1)} 0)`);
      const ray = parts.get('spark')?.mark;
      ray?.setAttribute(
        'd',
        state.spark === 'none' || state.spark === 'top' ? '' : `M${FAN.x} ${FAN.y}L${fanPoint(sample.sparkAngleDeg, FAN.length)}`,
      );
      // The middle of the ring is where the drill wants the handle.
      const [offX, offY] = [hand.leanXDeg - aim.leanXDeg, hand.leanYDeg - aim.leanYDeg];
      const reach = Math.min(40, Math.hypot(offX, offY) * (22 / Math.max(1, roomDeg)));
      const angle = Math.atan2(-offY, offX);
      parts
        .get('lean')
        ?.mark?.setAttribute(
          'transform',
          `translate(${(46 + reach * Math.cos(angle)).toFixed(1)} ${(46 + reach * Math.sin(angle)).toFixed(1)})`,
        );
    };
    let drawnMs = Number.NEGATIVE_INFINITY;
    draw(0);
    return source.onFrame(() => {
      const now = performance.now();
      if (now - drawnMs < REDRAW_MS) return;
      draw(Math.min(1000, now - drawnMs));
      drawnMs = now;
    });
  }, [source, drill, intended, tolerances, window, units, speedBand, standOffMm, roomDeg, aimed]);

  return (
    <div className="cues" ref={root}>
      <h2 className="out-of-sight">{say('cue.title')}</h2>
      <div className="cue" data-part="speed">
        <CueHead name="speed" label={say('cue.speed')} />
        <svg className="cue-rule" viewBox="0 0 220 50" aria-hidden="true" focusable="false">
          <Rule low={quantity(speedBand.low, 'mm/s', units)} high={quantity(speedBand.high, 'mm/s', units)} />
          <path className="cue-mark" data-part="speed-mark" d="M0 8l7-8h-14zM-1.5 8h3v28h-3z" />
        </svg>
      </div>
      <div className="cue cue-half" data-part="spark">
        <CueHead name="spark" label={say('cue.spark')} />
        <svg className="cue-fan" viewBox="0 0 92 84" aria-hidden="true" focusable="false">
          <path className="cue-line" d={`M4 ${FAN.y}H88`} />
          <path
            className="cue-band"
            d={`M${FAN.x} ${FAN.y}L${fanPoint(sparkAngleDeg.low, 70)}A70 70 0 0 1 ${fanPoint(sparkAngleDeg.high, 70)}Z`}
          />
          <path className="cue-plumb" d={`M${FAN.x} ${FAN.y}v62`} />
          <path className="cue-ray" data-part="spark-mark" d="" />
        </svg>
        <p className="cue-note">{band(sparkAngleDeg.low, sparkAngleDeg.high, 'deg', units)}</p>
      </div>
      <div className="cue cue-half" data-part="lean">
        <CueHead name="lean" label={say('cue.lean')} />
        <svg className="cue-fan" viewBox="0 0 92 92" aria-hidden="true" focusable="false">
          <circle className="cue-ring" cx={46} cy={46} r={42} />
          <circle className="cue-band" cx={46} cy={46} r={22} />
          <path className="cue-plumb" d="M46 40v12M40 46h12" />
          <circle className="cue-dot" data-part="lean-mark" r={6} transform="translate(46 46)" />
        </svg>
        <p className="cue-note">{aimWords(drill, roomDeg, units)}</p>
      </div>
      <div className="cue" data-part="stand-off">
        <CueHead name="stand-off" label={say('cue.stand-off')} />
        <svg className="cue-rule" viewBox="0 0 220 50" aria-hidden="true" focusable="false">
          <Rule low={quantity(standOffMm.low, 'mm', units)} high={quantity(standOffMm.high, 'mm', units)} />
          <path className="cue-mark" data-part="stand-off-mark" d="M0 8l7-8h-14zM-1.5 8h3v28h-3z" />
        </svg>
      </div>
    </div>
  );
}

/** The lean that the drill asks for, in words. */
function aimWords({ intended }: Drill, roomDeg: number, units: UnitSystem): string {
  const room = quantity(roomDeg, 'deg', units);
  if (intended.bevelDeg !== 0) {
    const side = say(intended.bevelDeg > 0 ? 'side.left' : 'side.right');
    return say('cue.aim.bevel', { bevel: quantity(Math.abs(intended.bevelDeg), 'deg', units), side, room });
  }
  if (intended.travelAngleDeg === null) return band(null, roomDeg, 'deg', units);
  const middle = (intended.travelAngleDeg.low + intended.travelAngleDeg.high) / 2;
  return say(middle < 0 ? 'cue.aim.push' : 'cue.aim.drag', { lean: quantity(Math.abs(middle), 'deg', units), room });
}

function CueHead({ name, label }: { name: string; label: string }) {
  return (
    <p className="cue-head">
      <span className="cue-label">{label}</span>
      <strong className="cue-value figure" data-part={`${name}-value`} />
      <span className="cue-word" data-part={`${name}-word`} />
    </p>
  );
}
