import { useMemo, useRef, useState } from 'react';
import { type CutFaces, type KerfQuality, type PathGeometry, pathGeometry } from '../../../sim-core/index.ts';
import type { UnitSystem } from '../../ui/units.ts';
import type { ReviewedRun } from '../fresh-run.ts';
import { type QualityFigure, type QualityFigureId, qualityFigures } from '../quality-figures.ts';
import { qualityMap } from '../quality-map.ts';
import type { Replay } from '../use-replay.ts';
import { onEdge, type PlatePoint, placeAt, placeAtTick } from './cut-places.ts';

export const FACE_TOOLS = ['map', 'place', 'distance'] as const;
export type FaceTool = (typeof FACE_TOOLS)[number];

/** A press within the breadth of the map's band, and a little beside it, is meant for the cut. */
const PRESS_REACH_MM = 9;

/** What is looked at and measured on the cut part. */
export interface CutFace {
  quality: KerfQuality;
  faces: CutFaces;
  line: PathGeometry;
  figures: readonly QualityFigure[];
  figure: QualityFigure;
  /** The plate's picture of the figure; null while something is measured, so that the metal is seen. */
  map: HTMLCanvasElement | null;
  tool: FaceTool;
  /** Way along the line of the place that is shown on the map, mm; null while the torch is not on the line. */
  shownMm: number | null;
  /** Way along the line that is measured, mm. */
  measuredMm: number;
  points: readonly [PlatePoint, PlatePoint];
  snaps: boolean;
  setFigure(id: QualityFigureId): void;
  setTool(tool: FaceTool): void;
  /** Shows the moment at which the torch was last at a place of the line. */
  showPlace(sMm: number): void;
  measurePlace(sMm: number): void;
  movePoint(index: 0 | 1, to: PlatePoint, freely?: boolean): void;
  /** Takes a point to the edge of the cut that is nearest to it, however far. */
  snapPoint(index: 0 | 1): void;
  setSnaps(on: boolean): void;
  /** A press on the plate, by the tool that is in hand. */
  press(point: PlatePoint): void;
}

/** State of the cut-face view; null until the cut has been read. */
export function useCutFace(
  run: ReviewedRun,
  replay: Replay,
  units: UnitSystem,
  open: boolean,
  goToTick: (tick: number) => void,
): CutFace | null {
  const { drill } = run;
  const quality = replay.measured?.quality ?? null;
  const line = useMemo(() => pathGeometry(drill.path), [drill]);
  const figures = useMemo(() => qualityFigures(drill), [drill]);
  const [figureId, setFigure] = useState<QualityFigureId | null>(null);
  const [tool, setTool] = useState<FaceTool>('map');
  const [picked, setPicked] = useState<{ sMm: number; atTick: number } | null>(null);
  const [measured, setMeasured] = useState<number | null>(null);
  const [moved, setMoved] = useState<readonly [PlatePoint, PlatePoint] | null>(null);
  const [snaps, setSnaps] = useState(true);
  const next = useRef<0 | 1>(0);
  const figure = figures.find(({ id }) => id === figureId) ?? figures[0];
  const map = useMemo(
    () => (quality && figure && open && tool === 'map' ? qualityMap(drill, quality, figure, units) : null),
    [drill, quality, figure, units, open, tool],
  );
  // A quarter of the line in from either end: apart on an open line, and across from each other on an outline.
  const atFirst = useMemo((): [PlatePoint, PlatePoint] | null => {
    if (!quality) return null;
    const edgeAt = (share: number) => onEdge(line, quality.faces, line.pointAt(share * line.lengthMm));
    return [edgeAt(0.25), edgeAt(0.75)];
  }, [quality, line]);
  if (!quality || !figure || !atFirst) return null;

  const { perMm, faces } = quality;
  const linked = picked?.atTick === replay.tick ? picked.sMm : (placeAtTick(perMm, replay.tick)?.sMm ?? null);
  const points = moved ?? atFirst;

  function clamped(point: PlatePoint): PlatePoint {
    const { lengthMm, widthMm } = drill.plate;
    return { xMm: Math.max(0, Math.min(lengthMm, point.xMm)), yMm: Math.max(0, Math.min(widthMm, point.yMm)) };
  }

  const self: CutFace = {
    quality,
    faces,
    line,
    figures,
    figure,
    map,
    tool,
    shownMm: linked,
    measuredMm: measured ?? linked ?? line.lengthMm / 2,
    points,
    snaps,
    setFigure,
    setSnaps,
    setTool(to) {
      // What is measured is the part that was left: the picture shows it, too.
      if (to !== 'map' && tool === 'map') {
        setMeasured(measured ?? linked);
        goToTick(run.tickCount);
      }
      setTool(to);
    },
    showPlace(sMm) {
      const tick = placeAt(perMm, sMm)?.tick ?? 0;
      const atTick = tick > 0 ? tick : replay.tick;
      setPicked({ sMm, atTick });
      setMeasured(sMm);
      if (tick > 0) goToTick(tick);
    },
    measurePlace: setMeasured,
    movePoint(index, to, freely = false) {
      const point = clamped(snaps && !freely ? onEdge(line, faces, to) : to);
      setMoved((was) => {
        const [first, second] = was ?? points;
        return index === 0 ? [point, second] : [first, point];
      });
    },
    snapPoint(index) {
      self.movePoint(index, onEdge(line, faces, points[index], Number.POSITIVE_INFINITY), true);
    },
    press(point) {
      if (tool === 'distance') {
        self.movePoint(next.current, point);
        next.current = next.current === 0 ? 1 : 0;
        return;
      }
      const { sMm, offsetMm, beyondMm } = line.nearest(point.xMm, point.yMm);
      if (Math.abs(offsetMm) > PRESS_REACH_MM || Math.abs(beyondMm) > PRESS_REACH_MM) return;
      if (tool === 'map') self.showPlace(sMm);
      else setMeasured(sMm);
    },
  };
  return self;
}
