import { useFrame } from '@react-three/fiber';
import { useRef } from 'react';
import type { DirectionalLight, HemisphereLight } from 'three';
import { ARC_STATES } from '../../sim-core/index.ts';
import { BOUNCE, type LightLevel, SUN_AT, YARD_LIGHT } from './light-level.ts';
import type { RunSource } from './run-source.ts';

const TRANSFERRED = ARC_STATES.indexOf('transferred');
/** Behind the lens the yard goes dim while the arc burns, slowly enough that a stuttering arc never flickers the picture, 1/s. */
const DIM_RATE = 2.5;
const DIMMED = 0.62;

export interface LightsProps {
  source: RunSource;
  theme: 'dark' | 'light';
  shadows: boolean;
  level: LightLevel;
}

/** Light of the yard, dimmed as through a lens while the arc is on the metal. */
export function Lights({ source, theme, shadows, level }: LightsProps) {
  const sky = useRef<HemisphereLight>(null);
  const sun = useRef<DirectionalLight>(null);
  const bounce = useRef<DirectionalLight>(null);
  const strength = YARD_LIGHT[theme];

  useFrame((_, delta) => {
    const wanted = source.sample.arcState === TRANSFERRED ? DIMMED : 1;
    const share = source.rate === 0 ? 1 : 1 - Math.exp(-Math.min(delta, 0.2) * DIM_RATE);
    level.value += (wanted - level.value) * share;
    if (sky.current) sky.current.intensity = strength.sky * level.value;
    if (sun.current) sun.current.intensity = strength.sun * level.value;
    if (bounce.current) bounce.current.intensity = BOUNCE.intensity * level.value;
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
        position={SUN_AT}
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
      <directionalLight ref={bounce} position={BOUNCE.at} intensity={BOUNCE.intensity} color={BOUNCE.colour} />
    </>
  );
}
