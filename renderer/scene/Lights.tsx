import { useFrame } from '@react-three/fiber';
import { useRef } from 'react';
import type { DirectionalLight, HemisphereLight } from 'three';
import { ARC_STATES } from '../../sim-core/index.ts';
import type { RunSource } from './run-source.ts';

const TRANSFERRED = ARC_STATES.indexOf('transferred');
/** Behind the lens the yard goes dim while the arc burns, slowly enough that a stuttering arc never flickers the picture, 1/s. */
const DIM_RATE = 2.5;
const DIMMED = 0.62;

const STRENGTH = {
  dark: { sky: 1.7, sun: 1.8, skyColour: '#c9d6d8', groundColour: '#3a3a34' },
  light: { sky: 2.1, sun: 2.3, skyColour: '#ffffff', groundColour: '#8b857a' },
} as const;

export interface LightsProps {
  source: RunSource;
  theme: 'dark' | 'light';
  shadows: boolean;
}

/** Light of the yard, dimmed as through a lens while the arc is on the metal. */
export function Lights({ source, theme, shadows }: LightsProps) {
  const sky = useRef<HemisphereLight>(null);
  const sun = useRef<DirectionalLight>(null);
  const bounce = useRef<DirectionalLight>(null);
  const level = useRef(1);
  const strength = STRENGTH[theme];

  useFrame((_, delta) => {
    const wanted = source.sample.arcState === TRANSFERRED ? DIMMED : 1;
    const share = source.rate === 0 ? 1 : 1 - Math.exp(-Math.min(delta, 0.2) * DIM_RATE);
    level.current += (wanted - level.current) * share;
    if (sky.current) sky.current.intensity = strength.sky * level.current;
    if (sun.current) sun.current.intensity = strength.sun * level.current;
    if (bounce.current) bounce.current.intensity = 1.1 * level.current;
  });

  return (
    <>
      <hemisphereLight
        ref={sky}
        args={[strength.skyColour, strength.groundColour, strength.sky]}
        up={[0, 0, 1]}
        position={[0, 0, 1]}
      />
      <directionalLight
        ref={sun}
        position={[-120, -160, 300]}
        intensity={strength.sun}
        castShadow={shadows}
        shadow-mapSize={[1024, 1024]}
        shadow-bias={-0.0006}
        shadow-camera-left={-220}
        shadow-camera-right={220}
        shadow-camera-top={220}
        shadow-camera-bottom={-220}
        shadow-camera-far={900}
      />
      {/* Light thrown back by the ground, so that the underside is not black. */}
      <directionalLight ref={bounce} position={[120, -220, -240]} intensity={1.1} color="#ffe2bf" />
    </>
  );
}
