import { useMemo } from 'react';
import { BoxGeometry, BufferGeometry, Color, Float32BufferAttribute, Group, Mesh, MeshLambertMaterial, PlaneGeometry } from 'three';
import { TRAY_DEPTH_MM } from './fall-pose.ts';

export interface YardColours {
  sky: string;
  ground: string;
  far: string;
  bench: string;
  water: string;
}

/** Evening and morning at the slipway; chosen with the theme of the page. */
export const YARD_COLOURS: Record<'dark' | 'light', YardColours> = {
  dark: { sky: '#1b2426', ground: '#2b3232', far: '#233033', bench: '#4b4f4a', water: '#20343a' },
  light: { sky: '#b9c4c1', ground: '#8d8f88', far: '#94a3a1', bench: '#5d615b', water: '#8aa5a8' },
};

const GROUND_MM = -820;

function box(size: readonly [number, number, number], at: readonly [number, number, number], material: MeshLambertMaterial): Mesh {
  const mesh = new Mesh(new BoxGeometry(...size), material);
  mesh.position.set(...at);
  return mesh;
}

/** The two rails the plate lies on, and the tray that catches what falls. Open to the eye from the front and from below. */
function bench(lengthMm: number, widthMm: number, thicknessMm: number, colours: YardColours, shadows: boolean): Group {
  const group = new Group();
  const steel = new MeshLambertMaterial({ color: colours.bench });
  const dark = new MeshLambertMaterial({ color: new Color(colours.bench).multiplyScalar(0.55) });
  const underside = -thicknessMm;
  for (const y of [widthMm * 0.1, widthMm * 0.9]) group.add(box([lengthMm + 90, 5, 14], [lengthMm / 2, y, underside - 7.1], steel));
  const tray = box([lengthMm + 190, widthMm + 150, 4], [lengthMm / 2, widthMm / 2, -TRAY_DEPTH_MM - thicknessMm - 6], dark);
  tray.receiveShadow = shadows;
  group.add(tray);
  for (const x of [-36, lengthMm + 36]) {
    group.add(box([9, widthMm * 1.05, 9], [x, widthMm / 2, underside - 19], dark));
    for (const y of [-8, widthMm + 8]) {
      group.add(box([9, 9, -GROUND_MM - 30], [x, y, GROUND_MM / 2 - 15 + underside], dark));
    }
  }
  return group;
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
    new Float32BufferAttribute(
      [bow, 0, 620, stern, -half, 560, stern, half, 560, stern, 0, 0, bow * 0.6, 0, 0],
      3,
    ),
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
  lengthMm: number;
  widthMm: number;
  thicknessMm: number;
  theme: 'dark' | 'light';
  full: boolean;
  shadows: boolean;
}

export function Yard({ lengthMm, widthMm, thicknessMm, theme, full, shadows }: YardProps) {
  const colours = YARD_COLOURS[theme];
  const stand = useMemo(
    () => bench(lengthMm, widthMm, thicknessMm, colours, shadows),
    [lengthMm, widthMm, thicknessMm, colours, shadows],
  );
  const around = useMemo(() => (full ? surroundings(colours) : null), [full, colours]);
  return (
    <>
      <color attach="background" args={[colours.sky]} />
      <mesh position={[lengthMm / 2, 1400, GROUND_MM]}>
        <planeGeometry args={[16000, 7400]} />
        <meshLambertMaterial color={colours.ground} />
      </mesh>
      <primitive object={stand} />
      {around && <primitive object={around} />}
      <hemisphereLight args={[theme === 'dark' ? '#c4d2d4' : '#ffffff', theme === 'dark' ? '#3a3a34' : '#8b857a', theme === 'dark' ? 1.5 : 1.9]} />
      <directionalLight
        position={[-120, -160, 300]}
        intensity={theme === 'dark' ? 1.7 : 2.1}
        castShadow={shadows}
        shadow-mapSize={[1024, 1024]}
        shadow-camera-left={-220}
        shadow-camera-right={220}
        shadow-camera-top={220}
        shadow-camera-bottom={-220}
        shadow-camera-far={900}
      />
      <directionalLight position={[160, 40, -260]} intensity={0.9} color="#ffd9b0" />
    </>
  );
}
