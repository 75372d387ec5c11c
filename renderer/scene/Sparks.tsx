import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { Mesh } from 'three';
import type { RunSource } from './run-source.ts';
import { createSparkGeometry } from './spark-geometry.ts';
import { createSparkMaterial } from './spark-material.ts';
import { createSparkPool, LONGEST_LIFE_S } from './spark-pool.ts';

/** A display slower than this throws sparks for this long a stretch only, s. */
const LONGEST_FRAME_S = 0.1;

/** Metal in flight: where it comes from, which way and how much is the core's ejecta of the latest tick. */
export function Sparks({ source, count }: { source: RunSource; count: number }) {
  const size = useThree((state) => state.size);
  const parts = useMemo(() => {
    const pool = createSparkPool(count, source.setup.thicknessMm);
    const shape = createSparkGeometry(count);
    const material = createSparkMaterial(source.setup.thicknessMm);
    const mesh = new Mesh(shape.geometry, material);
    mesh.frustumCulled = false;
    mesh.renderOrder = 10;
    return { pool, shape, material, mesh, clockS: 0, aliveToS: 0, generation: -1 };
  }, [count, source]);

  useEffect(
    () => () => {
      parts.shape.geometry.dispose();
      parts.material.dispose();
    },
    [parts],
  );

  useFrame((state, delta) => {
    const { pool, shape, material, mesh } = parts;
    if (source.generation !== parts.generation) {
      parts.generation = source.generation;
      pool.settle(source.ejecta, parts.clockS);
    }
    // Sparks age with the run: slowed with a slow replay, still while it stands.
    const seconds = Math.min(LONGEST_FRAME_S, delta) * source.rate;
    if (seconds > 0) {
      pool.emit(source.ejecta, parts.clockS, parts.clockS + seconds);
      parts.clockS += seconds;
    }
    material.uniforms.now.value = parts.clockS;
    const camera = state.camera;
    const fov = 'fov' in camera ? camera.fov : 40;
    material.uniforms.pixelMm.value = (2 * Math.tan((fov * Math.PI) / 360)) / (size.height * state.viewport.dpr);
    const written = pool.takeWritten();
    if (written) {
      shape.take(pool.data, written.from, written.count);
      parts.aliveToS = parts.clockS + LONGEST_LIFE_S;
    }
    // With none in the air there is nothing to draw.
    mesh.visible = parts.clockS < parts.aliveToS;
  });

  return <primitive object={parts.mesh} />;
}
