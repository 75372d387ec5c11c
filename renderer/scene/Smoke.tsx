import { useFrame } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { BufferAttribute, BufferGeometry, DynamicDrawUsage, Points, ShaderMaterial } from 'three';
import type { RunSource } from './run-source.ts';

/** Metal thrown per puff, mm3: the more is melted, the more smoke. */
const PUFF_EVERY_MM3 = 14;
const LIFE_S = 2.2;
/** Most of it goes down with the gas through the kerf: it is kept thin, and low. */
const STRENGTH = 0.13;

const VERTEX = `
attribute vec4 puff;
uniform float now;
uniform float heightPx;
varying float vCover;
void main() {
  float age = (now - puff.w) / ${LIFE_S.toFixed(1)};
  vec3 at = puff.xyz + vec3(8.0 * age * sin(puff.w * 17.0), 10.0 * age * cos(puff.w * 23.0), 26.0 * age);
  vCover = age < 0.0 || age > 1.0 ? 0.0 : ${STRENGTH.toFixed(2)} * smoothstep(0.0, 0.15, age) * (1.0 - age);
  vec4 seen = modelViewMatrix * vec4(at, 1.0);
  gl_Position = vCover > 0.0 ? projectionMatrix * seen : vec4(2.0, 2.0, 2.0, 1.0);
  gl_PointSize = (9.0 + 24.0 * age) * projectionMatrix[1][1] * heightPx * 0.5 / max(1.0, -seen.z);
}`;

const FRAGMENT = `
varying float vCover;
void main() {
  vec2 off = gl_PointCoord * 2.0 - 1.0;
  gl_FragColor = vec4(vec3(0.52, 0.53, 0.54), vCover * smoothstep(1.0, 0.1, dot(off, off)));
}`;

/** A little smoke over the arc, as much as metal is thrown. */
export function Smoke({ source, count }: { source: RunSource; count: number }) {
  const parts = useMemo(() => {
    const puffs = new BufferAttribute(new Float32Array(count * 4).fill(-1e6), 4).setUsage(DynamicDrawUsage);
    const geometry = new BufferGeometry();
    geometry.setAttribute('puff', puffs);
    geometry.setAttribute('position', new BufferAttribute(new Float32Array(count * 3), 3));
    const material = new ShaderMaterial({
      uniforms: { now: { value: 0 }, heightPx: { value: 600 } },
      vertexShader: VERTEX,
      fragmentShader: FRAGMENT,
      transparent: true,
      depthWrite: false,
    });
    const points = new Points(geometry, material);
    points.frustumCulled = false;
    points.renderOrder = 12;
    return { points, puffs, geometry, material, next: 0, owedMm3: 0, clockS: 0, generation: -1 };
  }, [count]);
  useEffect(
    () => () => {
      parts.geometry.dispose();
      parts.material.dispose();
    },
    [parts],
  );

  useFrame(({ size, viewport }, delta) => {
    const { sample, ejecta } = source;
    const { puffs, material } = parts;
    const data = puffs.array as Float32Array;
    const thrown = (ejecta.underRateMm3PerS || 0) + (ejecta.topRateMm3PerS || 0);
    const put = (bornS: number) => {
      data.set([sample.xMm, sample.yMm, 3, bornS], parts.next * 4);
      parts.next = (parts.next + 1) % count;
      puffs.needsUpdate = true;
    };
    if (source.generation !== parts.generation) {
      // After a jump it hangs as if the cut had been going on as now.
      parts.generation = source.generation;
      data.fill(-1e6);
      puffs.needsUpdate = true;
      const everyS = PUFF_EVERY_MM3 / thrown;
      for (let n = 1; n <= count && n * everyS < LIFE_S; n += 1) put(parts.clockS - n * everyS);
    }
    const seconds = Math.min(0.1, delta) * Math.max(0, source.rate);
    parts.clockS += seconds;
    parts.owedMm3 += thrown * seconds;
    if (parts.owedMm3 > PUFF_EVERY_MM3 && Number.isFinite(sample.xMm)) {
      parts.owedMm3 %= PUFF_EVERY_MM3;
      put(parts.clockS);
    }
    material.uniforms.now.value = parts.clockS;
    material.uniforms.heightPx.value = size.height * viewport.dpr * 0.8;
  });

  return <primitive object={parts.points} />;
}
