import { useFrame } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import { BoxGeometry, CatmullRomCurve3, Group, Mesh, MeshLambertMaterial, TubeGeometry, Vector3 } from 'three';
import type { ReturnClamp } from '../../sim-core/index.ts';
import { fallPose, placeWithPiece } from './fall-pose.ts';
import type { FixedLight, LightLevel } from './light-level.ts';
import { disposeModel, mergedModel, setModelLevel } from './merged-model.ts';
import { HANGING_PIECE } from './piece-number.ts';
import type { RunSource } from './run-source.ts';

const UP = new Vector3(0, 0, 1);

/** The return clamp: our own plain shape, two jaws on a block with its cable going down to the ground. Its origin is where it bites. */
function clampModel(thicknessMm: number, light: FixedLight | null): Mesh {
  const group = new Group();
  const jaw = new MeshLambertMaterial({ color: '#8c6b4a' });
  const block = new MeshLambertMaterial({ color: '#4a5350' });
  const add = (size: [number, number, number], at: [number, number, number], material: MeshLambertMaterial) => {
    const mesh = new Mesh(new BoxGeometry(...size), material);
    mesh.position.set(...at);
    group.add(mesh);
  };
  add([9, 12, 3], [0, 0, 1.5], jaw);
  add([9, 12, 3], [0, 0, -thicknessMm - 1.5], jaw);
  add([7, 8, thicknessMm + 16], [0, 9, -thicknessMm / 2 + 3], block);
  const cable = new CatmullRomCurve3([
    new Vector3(0, 12, 6),
    new Vector3(0, 34, 12),
    new Vector3(6, 60, -20),
    new Vector3(14, 84, -220),
  ]);
  group.add(new Mesh(new TubeGeometry(cable, 24, 2.6, 8), block));
  return mergedModel(group, light);
}

export interface ClampProps {
  source: RunSource;
  clamp: ReturnClamp;
  /** Light put into its corners; null = the lamps of the scene light it. */
  light: FixedLight | null;
  level: LightLevel;
}

/** Where the clamp bites on the plate it goes with the metal: if that piece falls, the clamp falls with it. */
export function Clamp({ source, clamp, light, level }: ClampProps) {
  const { setup, grid, field } = source;
  const group = useRef<Group>(null);
  const model = useMemo(() => clampModel(setup.thicknessMm, light), [setup, light]);
  useEffect(() => () => disposeModel(model), [model]);
  const column = Math.floor((clamp.xMm - grid.x0Mm) / grid.cellMm);
  const row = Math.floor((clamp.yMm - grid.y0Mm) / grid.cellMm);
  const onPlate = clamp.xMm > 0 && clamp.yMm > 0 && clamp.xMm < setup.lengthMm && clamp.yMm < setup.widthMm;
  useFrame(() => {
    if (!group.current) return;
    setModelLevel(model, level.value);
    const id = onPlate ? (field.pieceOf[row * field.stride + column] ?? 0) : 0;
    const piece = id === 0 ? undefined : source.fallen.find((one) => one.id === id);
    // Beside the plate it hangs on the rim of the bench, as deep as the plate's underside.
    group.current.position.set(clamp.xMm, clamp.yMm, onPlate ? 0 : -setup.thicknessMm);
    // Its cable runs away over the nearer of the two long edges.
    group.current.quaternion.setFromAxisAngle(UP, clamp.yMm < setup.widthMm / 2 ? Math.PI : 0);
    if (id === HANGING_PIECE && field.hang) placeWithPiece(group.current, field.hang, clamp.xMm, clamp.yMm);
    if (!piece) return;
    const pose = fallPose(piece, source.tick, setup.lengthMm / 2, setup.widthMm / 2, field.fellFrom.get(piece.id));
    const about = { ...pose, centreXMm: piece.centreXMm, centreYMm: piece.centreYMm };
    placeWithPiece(group.current, about, clamp.xMm, clamp.yMm);
  });
  return (
    <group ref={group}>
      <primitive object={model} />
    </group>
  );
}
