import { useFrame, useThree } from '@react-three/fiber';
import { type RefObject, useEffect, useMemo, useRef } from 'react';
import { Color, PerspectiveCamera } from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import { applyPose, BENCH_FOV_DEG, followUnder, shiftedPose, stationPose, type UnderEye, underPose } from './cameras.ts';
import { lineHeading } from './line-heading.ts';
import type { RunSource } from './run-source.ts';
import type { SceneHandle } from './scene-handle.ts';
import type { MarkedLine } from './skin-canvas.ts';
import { createViewRects, type ViewRects } from './view-rects.ts';

/** Behind the underside it is dark in every light, or sparks could not be seen. */
const UNDER_DARK = new Color('#191e20');

export interface ViewsProps {
  source: RunSource;
  line: MarkedLine;
  mainFrame: RefObject<HTMLElement | null>;
  underFrame: RefObject<HTMLElement | null>;
  /** Free camera: dragging the main frame moves it. */
  free: boolean;
  handle: SceneHandle;
  onFrameTime(ms: number): void;
}

/** Draws the scene twice into one canvas: the view from above into one frame of the page, the view from below into another. */
export function Views({ source, line, mainFrame, underFrame, free, handle, onFrameTime }: ViewsProps) {
  const gl = useThree((state) => state.gl);
  const invalidate = useThree((state) => state.invalidate);
  const scene = useThree((state) => state.scene);
  const main = useMemo(() => new PerspectiveCamera(BENCH_FOV_DEG, 1.6, 5, 20000), []);
  const hands = useMemo(() => new PerspectiveCamera(BENCH_FOV_DEG, 1.6, 5, 20000), []);
  const under = useMemo(() => new PerspectiveCamera(34, 1.4, 5, 20000), []);
  const eye = useRef<UnderEye>({ xMm: Number.NaN, yMm: 0, headingRad: 0 });
  const rects = useRef<ViewRects | null>(null);
  const controls = useRef<OrbitControls | null>(null);
  const placed = useRef(0);
  const playing = useRef(false);
  const { lengthMm, widthMm, thicknessMm } = source.setup;

  useEffect(() => {
    const watching = createViewRects(gl.domElement, { main: mainFrame.current, under: underFrame.current }, invalidate);
    rects.current = watching;
    return () => watching.close();
  }, [gl, mainFrame, underFrame, invalidate]);

  useEffect(() => {
    const element = mainFrame.current;
    if (!free || !element) return;
    const orbit = new OrbitControls(main, element);
    orbit.enableDamping = false;
    orbit.minDistance = 20;
    orbit.maxDistance = 900;
    orbit.target.set(lengthMm / 2, widthMm / 2, 0);
    orbit.addEventListener('change', () => invalidate());
    controls.current = orbit;
    placed.current = 0;
    return () => {
      orbit.dispose();
      controls.current = null;
    };
  }, [free, main, mainFrame, invalidate, lengthMm, widthMm]);

  useEffect(() => {
    handle.placeEye = () => {
      placed.current = 0;
      invalidate();
    };
    handle.nudge = (leftRad, upRad, zoom) => {
      const orbit = controls.current;
      if (!orbit) return;
      if (leftRad !== 0) orbit.rotateLeft(leftRad);
      if (upRad !== 0) orbit.rotateUp(upRad);
      if (zoom > 0) orbit.dollyIn(1 + zoom);
      if (zoom < 0) orbit.dollyOut(1 - zoom);
      orbit.update();
      invalidate();
    };
    handle.camera = main;
    handle.handCamera = hands;
    handle.mainRect = () => rects.current?.client('main') ?? null;
    handle.redraw = () => invalidate();
    handle.picture = () => {
      const { width, height } = gl.domElement.getBoundingClientRect();
      const aspect = main.aspect;
      main.aspect = width / height;
      main.updateProjectionMatrix();
      gl.setScissorTest(false);
      gl.setViewport(0, 0, width, height);
      gl.render(scene, main);
      // Read in the same task: after it the browser may have thrown the drawing away.
      const picture = gl.domElement.toDataURL('image/png');
      main.aspect = aspect;
      main.updateProjectionMatrix();
      invalidate();
      return picture;
    };
    return () => {
      handle.camera = null;
      handle.handCamera = null;
    };
  }, [handle, main, hands, invalidate, gl, scene]);

  useFrame((state, delta) => {
    // A scene that stood still tells nothing about how fast it can be drawn.
    if (source.rate > 0 && playing.current) onFrameTime(delta * 1000);
    playing.current = source.rate > 0;
    const boxes = rects.current;
    if (!boxes) return;
    const box = boxes.inCanvas('main');
    if (box) {
      const aspect = box.width / box.height;
      if (placed.current !== aspect) {
        // A resized window keeps a camera that the person has moved.
        if (placed.current === 0 || !free) {
          const { station, rightMm, upMm } = handle.eye;
          const pose = shiftedPose(stationPose(station, lengthMm, widthMm, aspect), rightMm, upMm);
          applyPose(main, pose);
          controls.current?.target.set(...pose.target);
          controls.current?.update();
        }
        placed.current = aspect;
        main.aspect = aspect;
        main.updateProjectionMatrix();
        applyPose(hands, stationPose('operator', lengthMm, widthMm, aspect));
        hands.aspect = aspect;
        hands.updateProjectionMatrix();
      }
      // The lamps see the same in both views: one drawing of the shadows is enough.
      gl.shadowMap.autoUpdate = false;
      gl.shadowMap.needsUpdate = true;
      gl.setScissorTest(true);
      gl.setViewport(box.left, box.bottom, box.width, box.height);
      gl.setScissor(box.left, box.bottom, box.width, box.height);
      gl.render(state.scene, main);
      handle.drawn();
    }
    const below = boxes.inCanvas('under');
    if (below) {
      const { sample } = source;
      const known = Number.isFinite(sample.xMm);
      const still = source.rate === 0 || source.generation !== handle.seenGeneration;
      handle.seenGeneration = source.generation;
      followUnder(
        eye.current,
        known ? Math.min(lengthMm, Math.max(0, sample.xMm)) : 0,
        known ? Math.min(widthMm, Math.max(0, sample.yMm)) : widthMm / 2,
        known ? lineHeading(line, sample.xMm, sample.yMm) : lineHeading(line, 0, widthMm / 2),
        still ? 0 : delta * source.rate,
      );
      applyPose(under, underPose(eye.current, thicknessMm));
      under.aspect = below.width / below.height;
      under.updateProjectionMatrix();
      gl.setScissorTest(true);
      gl.setViewport(below.left, below.bottom, below.width, below.height);
      gl.setScissor(below.left, below.bottom, below.width, below.height);
      const sky = state.scene.background;
      state.scene.background = UNDER_DARK;
      // Nothing has moved since the view from above was drawn.
      state.scene.matrixWorldAutoUpdate = box === null;
      gl.render(state.scene, under);
      state.scene.matrixWorldAutoUpdate = true;
      state.scene.background = sky;
    }
    gl.setScissorTest(false);
  }, 1);

  return null;
}
