import { useFrame } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import {
  BackSide,
  BoxGeometry,
  BufferGeometry,
  Color,
  CylinderGeometry,
  Float32BufferAttribute,
  Group,
  Mesh,
  MeshLambertMaterial,
  PlaneGeometry,
} from 'three';
import type { SimulationSetup } from '../../sim-core/index.ts';
import { TRAY_DEPTH_MM } from './fall-pose.ts';
import { fixedLight, type LightLevel } from './light-level.ts';
import { disposeModel, mergedModel, setModelLevel } from './merged-model.ts';

export interface YardColours {
  sky: string;
  ground: string;
  far: string;
  bench: string;
  /** Inside of the spark box: dark in both lights, so that sparks are seen. */
  box: string;
  water: string;
}

/** Evening and morning at the slipway; chosen with the theme of the page. */
export const YARD_COLOURS: Record<'dark' | 'light', YardColours> = {
  dark: { sky: '#1b2426', ground: '#2b3232', far: '#233033', bench: '#565c57', box: '#23282a', water: '#20343a' },
  light: { sky: '#b9c4c1', ground: '#8d8f88', far: '#94a3a1', bench: '#6d726b', box: '#3c4142', water: '#8aa5a8' },
};

const GROUND_MM = -820;
const BOX_MARGIN_MM = 46;
const BOX_DROP_MM = 12;

function box(
  size: readonly [number, number, number],
  at: readonly [number, number, number],
  material: MeshLambertMaterial,
): Mesh {
  const mesh = new Mesh(new BoxGeometry(...size), material);
  mesh.position.set(...at);
  return mesh;
}

/**
 * What the plate lies on: pins that stand in an open box, which catches sparks and what falls. The walls of the box are seen from
 * inside only, so that an eye outside looks past them at the underside of the plate.
 */
function bench(setup: SimulationSetup, colours: YardColours): Group {
  const { lengthMm, widthMm, thicknessMm } = setup;
  const group = new Group();
  const inside = new MeshLambertMaterial({ color: colours.box, side: BackSide });
  const steel = new MeshLambertMaterial({ color: colours.bench });
  const depth = TRAY_DEPTH_MM + 8;
  const width = lengthMm + 2 * BOX_MARGIN_MM;
  const across = widthMm + 2 * BOX_MARGIN_MM;
  const middle = [lengthMm / 2, widthMm / 2] as const;
  const shell = new BoxGeometry(width, across, depth);
  // Without its lid: the faces of a box are +x -x +y -y +z -z, six indices each.
  shell.setIndex(Array.from(shell.index?.array ?? []).filter((_, n) => Math.floor(n / 6) !== 4));
  shell.clearGroups();
  const catcher = new Mesh(shell, inside);
  catcher.position.set(middle[0], middle[1], -thicknessMm - BOX_DROP_MM - depth / 2);
  group.add(catcher);
  const rim = -thicknessMm - BOX_DROP_MM;
  for (const side of [-1, 1]) {
    group.add(box([width + 12, 6, 5], [middle[0], middle[1] + (side * (across + 6)) / 2, rim], steel));
    group.add(box([6, across, 5], [middle[0] + (side * (width + 6)) / 2, middle[1], rim], steel));
    for (const end of [-1, 1]) {
      const leg = -GROUND_MM - depth;
      const at = [middle[0] + (side * (width - 20)) / 2, middle[1] + (end * (across - 20)) / 2, GROUND_MM + leg / 2] as const;
      group.add(box([14, 14, leg], at, steel));
    }
  }
  for (const pin of setup.supports ?? []) {
    const length = depth + BOX_DROP_MM;
    const mesh = new Mesh(new CylinderGeometry(0.8, 2, length, 10), steel);
    mesh.rotation.x = Math.PI / 2;
    mesh.position.set(pin.xMm, pin.yMm, -thicknessMm - length / 2);
    group.add(mesh);
  }
  return group;
}

function ground({ lengthMm }: SimulationSetup, colours: YardColours): Mesh {
  const plane = new Mesh(new PlaneGeometry(16000, 7400), new MeshLambertMaterial({ color: colours.ground }));
  plane.position.set(lengthMm / 2, 1400, GROUND_MM);
  return plane;
}

/** The yard behind the bench: shed wall, ways running down to the water, a boat in its cradle. Plain shapes, far off. */
function surroundings(colours: YardColours): Group {
  const group = new Group();
  const far = new MeshLambertMaterial({ color: colours.far });
  const timber = new MeshLambertMaterial({ color: new Color(colours.far).multiplyScalar(0.72) });
  const hullPaint = new MeshLambertMaterial({ color: new Color(colours.far).lerp(new Color('#8a4f3a'), 0.35) });
  const water = new Mesh(new PlaneGeometry(16000, 5000), new MeshLambertMaterial({ color: colours.water }));
  water.position.set(600, 7600, GROUND_MM + 4);
  group.add(water);
  for (const x of [-900, -300]) {
    const rail = box([90, 5200, 60], [x, 3400, GROUND_MM + 60], timber);
    rail.rotation.x = -0.05;
    group.add(rail);
  }
  const hull = new BufferGeometry();
  const [bow, stern, half] = [1500, -1300, 520];
  hull.setAttribute(
    'position',
    new Float32BufferAttribute([bow, 0, 620, stern, -half, 560, stern, half, 560, stern, 0, 0, bow * 0.6, 0, 0], 3),
  );
  hull.setIndex([0, 1, 4, 1, 3, 4, 0, 4, 2, 2, 4, 3, 1, 2, 3, 0, 2, 1]);
  hull.computeVertexNormals();
  const boat = new Mesh(hull, hullPaint);
  boat.position.set(-600, 3400, GROUND_MM + 260);
  boat.rotation.z = 1.35;
  group.add(boat);
  for (const y of [2700, 3400, 4100]) group.add(box([1300, 90, 90], [-600, y, GROUND_MM + 200], timber));
  group.add(box([3200, 120, 1900], [2700, 4300, GROUND_MM + 950], far));
  group.add(box([3500, 500, 110], [2700, 4200, GROUND_MM + 1940], timber));
  group.add(box([900, 140, 1150], [2300, 4230, GROUND_MM + 575], timber));
  group.add(box([110, 110, 2600], [750, 4900, GROUND_MM + 1300], timber));
  group.add(box([1500, 90, 90], [1250, 4900, GROUND_MM + 2560], timber));
  return group;
}

export interface YardProps {
  setup: SimulationSetup;
  theme: 'dark' | 'light';
  full: boolean;
  shadows: boolean;
  lean: boolean;
  level: LightLevel;
}

export function Yard({ setup, theme, full, shadows, lean, level }: YardProps) {
  const colours = YARD_COLOURS[theme];
  const parts = useMemo(() => {
    const light = lean ? fixedLight(theme) : null;
    const near = bench(setup, colours);
    if (full) near.add(surroundings(colours));
    near.add(ground(setup, colours));
    const mesh = mergedModel(near, light);
    mesh.receiveShadow = shadows;
    // What hides it is drawn before it.
    mesh.renderOrder = 1;
    return mesh;
  }, [setup, theme, colours, shadows, lean, full]);
  useEffect(() => () => disposeModel(parts), [parts]);
  useFrame(() => setModelLevel(parts, level.value));
  return (
    <>
      <color attach="background" args={[colours.sky]} />
      <primitive object={parts} />
    </>
  );
}
