import { useFrame } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { Color, Matrix4, Quaternion, Vector3 } from 'three';
import { createBeadMesh } from './bead-mesh.ts';
import type { CutTrail, TrailPlace } from './cut-trail.ts';
import { fixedLight, type LightLevel } from './light-level.ts';
import { HANGING_PIECE } from './piece-number.ts';
import type { PlateField } from './plate-field.ts';
import type { RunSource } from './run-source.ts';

/** A place is looked at this long after the arc has been there: its kerf is open, and what stayed has frozen. */
const AFTER_TICKS = 48;
const WIDEST_HALF_KERF_MM = 4;
const matrix = new Matrix4();
const place = new Vector3();
const size = new Vector3();
const turn = new Quaternion();
const UP = new Vector3(0, 0, 1);
const INKS = { 'low-speed': new Color('#4a423b'), 'high-speed': new Color('#6d645a'), 'top-spatter': new Color('#544a42') };

/** Way from the middle of the kerf to its edge, mm; NaN where there is none, or what is there has fallen. */
function edgeMm(
  { grid, stride, topDepthMm, bottomRiseMm, pieceOf, thicknessMm }: PlateField,
  from: TrailPlace,
  side: number,
): number {
  const nx = -Math.sin(from.headingRad) * side;
  const ny = Math.cos(from.headingRad) * side;
  for (let d = 0; d < WIDEST_HALF_KERF_MM; d += grid.cellMm / 2) {
    const column = Math.floor((from.xMm + nx * d - grid.x0Mm) / grid.cellMm);
    const row = Math.floor((from.yMm + ny * d - grid.y0Mm) / grid.cellMm);
    if (column < 0 || row < 0 || column >= grid.nx || row >= grid.ny) return Number.NaN;
    const cell = row * stride + column;
    const left = thicknessMm - (topDepthMm[cell] as number) - (bottomRiseMm[cell] as number);
    if (left > thicknessMm * 0.2) return pieceOf[cell] === 0 || pieceOf[cell] === HANGING_PIECE ? d : Number.NaN;
  }
  return Number.NaN;
}

export interface DrossProps {
  source: RunSource;
  trail: CutTrail;
  /** Beads on both edges together, at most. */
  count: number;
  theme: 'dark' | 'light';
  level: LightLevel;
}

/** Metal that stays on the edges: beads below where the cut was slow or fast, spatter on top where it was lost. */
export function Dross({ source, trail, count, theme, level }: DrossProps) {
  const parts = useMemo(
    () => ({ beads: createBeadMesh(count, fixedLight(theme)), trail, looked: 0, tick: 0, fallen: 0 }),
    [count, trail, theme],
  );
  useEffect(() => () => parts.beads.dispose(), [parts]);

  useFrame(() => {
    const { beads } = parts;
    const { tick, fallen, field } = source;
    if (tick < parts.tick || fallen.length !== parts.fallen) {
      parts.looked = 0;
      beads.clear();
    }
    parts.tick = tick;
    parts.fallen = fallen.length;
    beads.mesh.material.uniforms.level.value = level.value;
    while (parts.looked < trail.places.length) {
      const here = trail.places[parts.looked] as TrailPlace;
      if (here.tick > tick - AFTER_TICKS) break;
      parts.looked += 1;
      if (here.drossKind === 'none') continue;
      for (let side = -1; side <= 1; side += 2) put(here, side);
    }

    function put(here: TrailPlace, side: number): void {
      const out = edgeMm(field, here, side);
      if (Number.isNaN(out) || here.drossKind === 'none') return;
      // Uneven as it is, but the same in every picture of the run: told from the place itself.
      const odd = Math.abs(Math.sin(here.sMm * 12.9898 + side * 4.1) * 43758.5453) % 1;
      const tall = here.drossMm * (0.55 + 0.9 * odd);
      const onTop = here.drossKind === 'top-spatter';
      const away = out + (onTop ? 0.4 + 1.2 * odd : 0.15);
      place.set(
        here.xMm - Math.sin(here.headingRad) * side * away,
        here.yMm + Math.cos(here.headingRad) * side * away,
        onTop ? 0.1 * tall : -field.thicknessMm - 0.45 * tall,
      );
      size.set(0.35 + 0.5 * tall, 0.22 + 0.3 * tall, 0.15 + (onTop ? 0.5 : 0.85) * tall);
      turn.setFromAxisAngle(UP, here.headingRad + 0.6 * (odd - 0.5));
      beads.add(matrix.compose(place, turn, size), INKS[here.drossKind]);
    }
  });

  return <primitive object={parts.beads.mesh} />;
}
