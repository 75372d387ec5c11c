import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { InstancedBufferGeometry, InstancedInterleavedBuffer, InterleavedBufferAttribute, Mesh, PlaneGeometry } from 'three';
import type { RunSource } from './run-source.ts';
import { createSparkMaterial } from './spark-material.ts';
import { createSparkPool, SPARK_FLOATS } from './spark-pool.ts';

/** A display slower than this throws sparks for this long a stretch only, s. */
const LONGEST_FRAME_S = 0.1;

/** Metal in flight: where it comes from, which way and how much is the core's ejecta of the latest tick. */
export function Sparks({ source, count }: { source: RunSource; count: number }) {
  const size = useThree((state) => state.size);
  const parts = useMemo(() => {
    const pool = createSparkPool(count, source.setup.thicknessMm);
    const quad = new PlaneGeometry(1, 1);
    const geometry = new InstancedBufferGeometry();
    geometry.index = quad.index;
    geometry.setAttribute('position', quad.getAttribute('position'));
    const buffer = new InstancedInterleavedBuffer(pool.data, SPARK_FLOATS, 1);
    geometry.setAttribute('start', new InterleavedBufferAttribute(buffer, 3, 0));
    geometry.setAttribute('speed', new InterleavedBufferAttribute(buffer, 3, 3));
    geometry.setAttribute('kind', new InterleavedBufferAttribute(buffer, 4, 6));
    geometry.instanceCount = count;
    const material = createSparkMaterial(source.setup.thicknessMm);
    const mesh = new Mesh(geometry, material);
    mesh.frustumCulled = false;
    mesh.renderOrder = 10;
    return { pool, buffer, geometry, material, mesh, clockS: 0, generation: -1 };
  }, [count, source]);

  useEffect(
    () => () => {
      parts.geometry.dispose();
      parts.material.dispose();
    },
    [parts],
  );

  useFrame((state, delta) => {
    const { pool, buffer, material } = parts;
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
    if (pool.takeWritten()) buffer.needsUpdate = true;
  });

  return <primitive object={parts.mesh} />;
}
