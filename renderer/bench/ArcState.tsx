import { type RefObject, useEffect, useRef, useState } from 'react';
import { Vector3 } from 'three';
import { ARC_STATES, type ArcStateName } from '../../sim-core/index.ts';
import type { RunSource } from '../scene/run-source.ts';
import type { SceneHandle } from '../scene/scene-handle.ts';
import { SOUND_LAYERS } from '../sound/sound-constants.ts';
import { createSoundSigns, SOUND_CUES } from '../sound/sound-cues.ts';
import type { SoundParameters } from '../sound/sound-of.ts';
import { say } from '../text/say.ts';
import { quantity, type UnitSystem } from '../ui/units.ts';

/** The figure is renewed this often: faster it cannot be read. */
const FIGURE_MS = 160;
/** The signs stand up and to the left of the tip, clear of the line, the arc and the handle, px; and off the frame's edge. */
const ASIDE_PX = 56;
const ABOVE_PX = 34;
const MARGIN_PX = 8;
/** Arc voltages that the bar begins and ends at, V. */
const BAR_V = { low: 90, high: 200 } as const;

export interface ArcStateProps {
  source: RunSource;
  /** How the run sounds; refilled frame by frame. */
  sound: Readonly<SoundParameters>;
  scene: SceneHandle;
  /** The frame that the signs stay within. */
  frame: RefObject<HTMLElement | null>;
  units: UnitSystem;
}

/**
 * What the torch does, beside the torch: each thing that can be heard as a sign with its word, and the arc's voltage, which is its
 * pitch, as a figure and a bar. It moves by the frame; what it says changes a few times a second at most.
 */
export function ArcState({ source, sound, scene, frame, units }: ArcStateProps) {
  const [shown, setShown] = useState<readonly boolean[]>(() => SOUND_LAYERS.map(() => false));
  const [state, setState] = useState<ArcStateName>('off');
  const root = useRef<HTMLDivElement>(null);
  const figure = useRef<HTMLSpanElement>(null);
  const bar = useRef<SVGRectElement>(null);

  useEffect(() => {
    const signs = createSoundSigns();
    let figureMs = Number.NEGATIVE_INFINITY;
    const look = () => {
      const nowMs = performance.now();
      if (signs.look(sound, nowMs / 1000)) setShown([...signs.shown]);
      if (!(sound.voltageV > 0) || nowMs - figureMs < FIGURE_MS) return;
      figureMs = nowMs;
      if (figure.current) figure.current.textContent = quantity(Math.round(sound.voltageV), 'V', units);
      const share = Math.min(1, Math.max(0, (sound.voltageV - BAR_V.low) / (BAR_V.high - BAR_V.low)));
      bar.current?.setAttribute('width', (share * 60).toFixed(1));
    };
    const take = () => {
      setState(ARC_STATES[source.sample.arcState] ?? 'off');
      look();
    };
    const stop = source.onFrame(take);
    // A replay that stands still may have shown its frame before.
    take();
    // What was over in a moment also goes when no frame comes any more.
    const timer = setInterval(look, FIGURE_MS);
    return () => {
      clearInterval(timer);
      stop();
    };
  }, [source, sound, units]);

  useEffect(() => {
    const [box, within] = [root.current, frame.current];
    if (!box || !within) return;
    const tip = new Vector3();
    const size = { width: 0, height: 0, boxWidth: 0, boxHeight: 0 };
    const measured = new ResizeObserver(() => {
      size.width = within.clientWidth;
      size.height = within.clientHeight;
      size.boxWidth = box.offsetWidth;
      size.boxHeight = box.offsetHeight;
      place();
    });
    let put = '';
    const place = () => {
      const { sample } = source;
      if (!scene.camera || !Number.isFinite(sample.xMm)) return;
      tip.set(sample.xMm, sample.yMm, sample.standOffMm).project(scene.camera);
      const tipX = ((tip.x + 1) / 2) * size.width;
      const left = tipX - ASIDE_PX - size.boxWidth;
      const top = ((1 - tip.y) / 2) * size.height - ABOVE_PX - size.boxHeight;
      // Where there is no room to the left, on the other side of the torch.
      const aside = left < MARGIN_PX ? tipX + ASIDE_PX : left;
      const x = Math.max(MARGIN_PX, Math.min(size.width - size.boxWidth - MARGIN_PX, aside));
      const y = Math.max(MARGIN_PX, Math.min(size.height - size.boxHeight - MARGIN_PX, top));
      const next = `translate(${Math.round(x)}px, ${Math.round(y)}px)`;
      if (next === put) return;
      put = next;
      box.style.transform = next;
    };
    measured.observe(box);
    measured.observe(within);
    const stop = scene.onDrawn(place);
    return () => {
      measured.disconnect();
      stop();
    };
  }, [source, scene, frame]);

  const any = shown.some(Boolean);
  return (
    <div className="arc-state" data-arc={state} ref={root}>
      <ul aria-label={say('sound.signs')}>
        {SOUND_LAYERS.map((layer, n) =>
          shown[n] ? (
            <li key={layer} data-sign={layer}>
              <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
                <path d={SOUND_CUES[layer].shape} fill="currentColor" />
              </svg>
              {say(SOUND_CUES[layer].sign)}
              {layer === 'arc' && (
                <>
                  <span className="figure arc-state-volts" ref={figure} />
                  <svg className="arc-state-bar" viewBox="0 0 62 10" aria-hidden="true" focusable="false">
                    <rect x={0.5} y={0.5} width={61} height={9} fill="none" stroke="var(--edge)" />
                    <rect x={1} y={1} width={0} height={8} fill="var(--ember)" ref={bar} />
                  </svg>
                </>
              )}
            </li>
          ) : null,
        )}
        {!any && <li data-sign="none">{say('sound.sign.none')}</li>}
      </ul>
    </div>
  );
}
