import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import { type Group, Vector4 } from 'three';
import { useSay } from '../text/use-say.ts';
import type { CutTrail, TrailPlace } from './cut-trail.ts';
import { createDragMarks, markDrag } from './drag-marks.ts';
import { fallPose, placeWithPiece } from './fall-pose.ts';
import { createGlowTexture, paintGlow } from './glow-texture.ts';
import { createHangSag } from './hang-sag.ts';
import { createLeanPlateMaterial } from './lean-plate-material.ts';
import type { LightLevel } from './light-level.ts';
import { HANGING_PIECE } from './piece-number.ts';
import { createPlateLight } from './plate-light.ts';
import { createPlateMap, createSkinTexture, type PlateLook, showOnPlate } from './plate-look.ts';
import { createHeatTexture, createPlateMaterial } from './plate-material.ts';
import { createPlateSurface, dirtyAll, type SurfaceGrain } from './plate-surface.ts';
import type { Tier } from './quality-tiers.ts';
import type { RunSource } from './run-source.ts';
import { BARE_COLOUR, type MarkedLine, paintSkin } from './skin-canvas.ts';

const MANY_TILES = 64;

function atRest(group: Group): Group {
  group.quaternion.identity();
  return group;
}

export interface PlateMeshProps {
  source: RunSource;
  line: MarkedLine;
  stopsAtEnd: boolean;
  theme: 'dark' | 'light';
  surfaces: Tier['surfaces'];
  /** How the front stood where the plate was cut: drawn as lines on the walls. */
  trail: CutTrail;
  level: LightLevel;
  shadows: boolean;
  grain: SurfaceGrain;
  tilesPerFrame: number;
  metalEvery: number;
  /** A picture of the plate laid over it; null = none. */
  map: HTMLCanvasElement | null;
}

/** The plate with its kerf, and whatever has fallen out of it. Tiles are rebuilt as the metal changes, a few in each frame. */
export function PlateMesh({
  source,
  line,
  stopsAtEnd,
  theme,
  surfaces,
  trail,
  level,
  shadows,
  grain,
  tilesPerFrame,
  metalEvery,
  map,
}: PlateMeshProps) {
  const say = useSay();
  const { setup, field } = source;
  const invalidate = useThree((state) => state.invalidate);
  const lean = surfaces === 'lean';
  const skin = useMemo(() => {
    const { material: metal, lengthMm, widthMm, surface = 'bare' } = setup;
    return createSkinTexture(paintSkin(metal, lengthMm, widthMm, line, stopsAtEnd, surface, say(`surface.${surface}`)), lean);
  }, [setup, line, stopsAtEnd, lean, say]);
  const light = useMemo(() => createPlateLight(theme), [theme]);
  const mapped = map !== null;
  const plateMap = useMemo(createPlateMap, []);
  const drawn = useMemo(() => {
    const { lengthMm, widthMm, material: metal, airGap = null } = setup;
    const bareColour = BARE_COLOUR[metal];
    const look: PlateLook = { field, lengthMm, widthMm, skin, bareColour, map: mapped ? plateMap : null, airGap };
    field.heatChanged = true;
    if (lean) {
      const [heat, hotBox] = [createGlowTexture(field), new Vector4()];
      return { heat, hotBox, material: createLeanPlateMaterial(look, heat, hotBox, light), marks: null };
    }
    const [heat, marks] = [createHeatTexture(field), createDragMarks(lengthMm, widthMm)];
    return { heat, hotBox: null, material: createPlateMaterial(look, surfaces === 'rich', heat, marks), marks };
  }, [field, setup, skin, surfaces, lean, light, plateMap, mapped]);
  const marked = useMemo(() => ({ count: 0, marks: drawn.marks, trail }), [drawn, trail]);
  const frame = useRef(0);
  const surface = useMemo(() => {
    dirtyAll(field);
    return createPlateSurface(field, grain);
  }, [field, grain]);

  const sag = useMemo(() => createHangSag(setup, line, field), [setup, line, field]);

  useEffect(() => {
    surface.setMaterial(drawn.material);
    return () => {
      drawn.material.dispose();
      drawn.heat.dispose();
      drawn.marks?.dispose();
    };
  }, [surface, drawn]);
  useEffect(() => {
    showOnPlate(plateMap, map);
    invalidate();
  }, [plateMap, map, invalidate]);
  useEffect(() => surface.setShadows(shadows), [surface, shadows]);
  useEffect(() => () => surface.dispose(), [surface]);
  useEffect(() => () => skin.dispose(), [skin]);

  useFrame((state, delta) => {
    // What was marked stays: where nothing has been cut yet there is no wall to show it.
    for (; marked.marks && marked.count < trail.places.length; marked.count += 1) {
      markDrag(marked.marks, trail.places[marked.count] as TrailPlace);
    }
    light.level.value = level.value;
    frame.current += 1;
    if (field.dirty.size > 0) sag.metalChanged();
    // The first picture of a plate, and the far end of a jump, are worth a longer frame, and are not waited for.
    const waiting = field.dirty.size;
    if (waiting > MANY_TILES || frame.current % metalEvery === 0) {
      if (waiting > 0 && surface.update(waiting > MANY_TILES ? waiting : tilesPerFrame)) state.invalidate();
      if (field.heatChanged) {
        field.heatChanged = false;
        if (drawn.hotBox) paintGlow(drawn.heat, field, drawn.hotBox);
        else drawn.heat.needsUpdate = true;
      }
    } else if (waiting > 0 || field.heatChanged) state.invalidate();
    sag.frame(source, delta);
    if (field.dirty.size > 0) state.invalidate();
    const hanging = surface.pieces.get(HANGING_PIECE);
    if (hanging && field.hang) placeWithPiece(atRest(hanging), field.hang, 0, 0);
    else if (hanging) atRest(hanging).position.set(0, 0, 0);
    for (const piece of source.fallen) {
      const group = surface.pieces.get(piece.id);
      if (!group) continue;
      const pose = fallPose(piece, source.tick, setup.lengthMm / 2, setup.widthMm / 2, field.fellFrom.get(piece.id));
      placeWithPiece(atRest(group), { ...pose, centreXMm: piece.centreXMm, centreYMm: piece.centreYMm }, 0, 0);
    }
  });

  return <primitive object={surface.root} />;
}
