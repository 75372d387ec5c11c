import { useFrame } from '@react-three/fiber';
import { useMemo, useRef } from 'react';
import type { DirectionalLight, HemisphereLight } from 'three';
import { ARC_STATES } from '../../sim-core/index.ts';
import { BOUNCE, followLens, type LightLevel, SUN_AT, YARD_LIGHT } from './light-level.ts';
import type { RunSource } from './run-source.ts';
import { createSteadyGlow } from './steady-glow.ts';

const PILOT = ARC_STATES.indexOf('pilot');
const TRANSFERRED = ARC_STATES.indexOf('transferred');
const PILOT_GLOW = 0.35;

export interface LightsProps {
  source: RunSource;
  theme: 'dark' | 'light';
  shadows: boolean;
  level: LightLevel;
  calm: boolean;
}

/** Light of the yard, dimmed as through a lens while the arc is on the metal; and how bright the arc itself is seen. Comes before all that reads it. */
export function Lights({ source, theme, shadows, level, calm }: LightsProps) {
  const sky = useRef<HemisphereLight>(null);
  const sun = useRef<DirectionalLight>(null);
  const bounce = useRef<DirectionalLight>(null);
  const strength = YARD_LIGHT[theme];

  const glow = useMemo(createSteadyGlow, []);

  useFrame((state, delta) => {
    const { arcState } = source.sample;
    const wanted = arcState === TRANSFERRED ? 1 : arcState === PILOT ? PILOT_GLOW : 0;
    const still = source.rate === 0;
    level.glow = glow.step(wanted, delta, calm, still);
    followLens(level, delta, still);
    // A picture that stands is drawn when asked for: until the light has come to rest it asks itself.
    if (still && glow.moving) state.invalidate();
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
