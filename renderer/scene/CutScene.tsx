import { Canvas, useThree } from '@react-three/fiber';
import { type RefObject, useCallback, useEffect, useMemo, useState } from 'react';
import { readTrace, type StoredTrace } from '../../sim-core/index.ts';
import { useCalmLight } from '../app/calm-light.ts';
import { say } from '../text/say.ts';
import { Arc } from './Arc.tsx';
import { Clamp } from './Clamp.tsx';
import { ContextWatch } from './ContextWatch.tsx';
import { createCutTrail, trailOfTrace } from './cut-trail.ts';
import { Dross } from './Dross.tsx';
import { Guide } from './Guide.tsx';
import type { GuideShape } from './guide-shape.ts';
import { Lights } from './Lights.tsx';
import { dimmedBehind, fixedLight, type LightLevel } from './light-level.ts';
import { PlateMesh } from './PlateMesh.tsx';
import { FINE_GRAIN, TIERS, type Tier, type TierName } from './quality-tiers.ts';
import type { RunSource } from './run-source.ts';
import { Smoke } from './Smoke.tsx';
import { Sparks } from './Sparks.tsx';
import type { SceneHandle } from './scene-handle.ts';
import type { MarkedLine } from './skin-canvas.ts';
import { Torch } from './Torch.tsx';
import { createTierChooser, firstTier } from './tier-chooser.ts';
import { Views } from './Views.tsx';
import { Yard } from './Yard.tsx';

export interface CutSceneProps {
  source: RunSource;
  line: MarkedLine;
  stopsAtEnd: boolean;
  /** Filter before the eyes; null where the drill does not ask for it. */
  shade: number | null;
  /** What holds the hand to the line; null where it is held freehand. */
  guide?: GuideShape | null;
  theme: 'dark' | 'light';
  /** A tier that a person pinned, or 'auto'. */
  pinnedTier: TierName | 'auto';
  onTier(tier: TierName): void;
  mainFrame: RefObject<HTMLElement | null>;
  underFrame: RefObject<HTMLElement | null>;
  free: boolean;
  /** Nothing moves: the picture may take its time and be sharp. */
  still: boolean;
  handle: SceneHandle;
  label: string;
  /** A picture of the plate laid over it, as a map of its cut; absent = none. */
  map?: HTMLCanvasElement | null;
  /** Samples of a run that is recorded: the marks of its cut are told from them. Absent = from the run as it goes. */
  trace?: StoredTrace | null;
}

let probed: { name: string } | null = null;

/** Name of the machine's renderer, asked once on a canvas of its own. */
function rendererName(): string {
  if (probed === null) {
    const gl = document.createElement('canvas').getContext('webgl2');
    const info = gl?.getExtension('WEBGL_debug_renderer_info');
    const name = gl && info ? String(gl.getParameter(info.UNMASKED_RENDERER_WEBGL)) : '';
    gl?.getExtension('WEBGL_lose_context')?.loseContext();
    probed = { name };
  }
  return probed.name;
}

/** Pictures for the documentation are read back from the canvas after the frame. */
function keepsPicture(): boolean {
  return new URLSearchParams(window.location.search).has('keep-picture');
}

/** Wakes a scene that draws on demand whenever the run moves. */
function Waker({ source }: { source: RunSource }) {
  const invalidate = useThree((state) => state.invalidate);
  useEffect(() => source.onFrame(() => invalidate()), [source, invalidate]);
  return null;
}

function pixelRatio(tier: Tier, still: boolean): number {
  if (still) return Math.min(window.devicePixelRatio, Math.max(1, tier.pixelRatioHigh));
  const wanted = Math.min(window.devicePixelRatio, tier.pixelRatioHigh) * tier.resolutionScale;
  return Math.min(wanted, Math.sqrt(tier.pixelsHigh / (window.innerWidth * window.innerHeight)));
}

/** The whole picture of a run, live or recorded: the same scene for both. */
export function CutScene(props: CutSceneProps) {
  const { source, pinnedTier, onTier, theme, handle, mainFrame } = props;
  const software = useMemo(() => firstTier(rendererName()) === 'lite', []);
  const chooser = useMemo(() => createTierChooser(firstTier(rendererName())), []);
  const [measured, setMeasured] = useState<TierName>(chooser.tier);
  const name = pinnedTier === 'auto' ? measured : pinnedTier;
  const tier = TIERS[name];
  const calm = useCalmLight();
  const [lost, setLost] = useState(false);
  const recorded = props.trace ?? null;
  const trail = useMemo(() => {
    const { thicknessMm } = source.setup;
    return recorded ? trailOfTrace(readTrace(recorded), recorded.hz, thicknessMm) : createCutTrail(thicknessMm);
  }, [source, recorded]);
  useEffect(
    () => (recorded ? undefined : source.onFrame(() => trail.take(source.tick, source.sample))),
    [source, recorded, trail],
  );
  const lean = tier.surfaces === 'lean';
  const baked = useMemo(() => (lean ? fixedLight(theme) : null), [lean, theme]);
  const level = useMemo<LightLevel>(() => ({ value: 1, glow: 0, dimmed: dimmedBehind(props.shade) }), [props.shade]);
  useEffect(() => onTier(name), [name, onTier]);

  const onFrameTime = useCallback(
    (ms: number) => {
      if (chooser.frame(ms)) setMeasured(chooser.tier);
      if (chooser.medianMs === handle.medianFrameMs || Number.isNaN(chooser.medianMs)) return;
      handle.medianFrameMs = chooser.medianMs;
      mainFrame.current?.setAttribute('data-frame-ms', chooser.medianMs.toFixed(1));
    },
    [chooser, handle, mainFrame],
  );

  return (
    <>
      <div className="scene" role="img" aria-label={props.label}>
        <Canvas
          flat
          shadows={tier.shadows ? 'percentage' : false}
          dpr={pixelRatio(tier, props.still)}
          frameloop={source.kind === 'live' ? 'always' : 'demand'}
          gl={{ alpha: false, antialias: !software, powerPreference: 'high-performance', preserveDrawingBuffer: keepsPicture() }}
        >
          <Lights source={source} theme={theme} shadows={tier.shadows} level={level} calm={calm} />
          <Yard setup={source.setup} theme={theme} full={tier.surroundings} shadows={tier.shadows} lean={lean} level={level} />
          <PlateMesh
            source={source}
            line={props.line}
            stopsAtEnd={props.stopsAtEnd}
            theme={theme}
            surfaces={tier.surfaces}
            trail={trail}
            level={level}
            shadows={tier.shadows}
            grain={source.kind === 'live' ? tier.grain : FINE_GRAIN}
            tilesPerFrame={tier.tilesPerFrame}
            metalEvery={tier.metalEvery}
            map={props.map ?? null}
          />
          {source.setup.fit?.clamp && <Clamp source={source} clamp={source.setup.fit.clamp} light={baked} level={level} />}
          {props.guide && <Guide source={source} shape={props.guide} />}
          <Torch source={source} theme={theme} shadows={tier.shadows} lean={lean} level={level} />
          <Arc source={source} lit={name !== 'lite'} level={level} calm={calm} />
          <Dross source={source} trail={trail} count={tier.beadCount} theme={theme} level={level} />
          <Sparks key={tier.sparkCount} source={source} count={tier.sparkCount} />
          {tier.puffs > 0 && <Smoke source={source} count={tier.puffs} />}
          <Waker source={source} />
          <ContextWatch onLost={setLost} />
          <Views
            source={source}
            line={props.line}
            mainFrame={props.mainFrame}
            underFrame={props.underFrame}
            free={props.free}
            handle={props.handle}
            onFrameTime={onFrameTime}
          />
        </Canvas>
      </div>
      {lost && (
        <p className="scene-lost" role="alert">
          {say('bench.picture-lost')}
        </p>
      )}
    </>
  );
}
