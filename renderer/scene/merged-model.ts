import {
  BackSide,
  BufferAttribute,
  type BufferGeometry,
  Color,
  type Group,
  type Material,
  Mesh,
  MeshLambertMaterial,
  Vector3,
} from 'three';
import { mergeGeometries } from 'three/examples/jsm/utils/BufferGeometryUtils.js';
import { type FixedLight, lightOn } from './light-level.ts';
import { createLitMaterial, type LitMaterial } from './lit-material.ts';

const normal = new Vector3();
const lit = new Color();

/** One part with its place and colour put into its vertices; a part seen from inside is turned inside out. */
function partGeometry(part: Mesh, light: FixedLight | null): BufferGeometry {
  const material = part.material as MeshLambertMaterial;
  const geometry = part.geometry.index ? part.geometry.toNonIndexed() : part.geometry.clone();
  geometry.applyMatrix4(part.matrixWorld);
  geometry.deleteAttribute('uv');
  geometry.clearGroups();
  const positions = geometry.getAttribute('position') as BufferAttribute;
  const normals = geometry.getAttribute('normal') as BufferAttribute;
  if (material.side === BackSide) {
    for (const attribute of [positions, normals]) {
      for (let n = 0; n < attribute.count; n += 3) {
        const [x, y, z] = [attribute.getX(n), attribute.getY(n), attribute.getZ(n)];
        attribute.setXYZ(n, attribute.getX(n + 1), attribute.getY(n + 1), attribute.getZ(n + 1));
        attribute.setXYZ(n + 1, x, y, z);
      }
    }
    for (let n = 0; n < normals.count; n += 1) normals.setXYZ(n, -normals.getX(n), -normals.getY(n), -normals.getZ(n));
  }
  const colours = new Float32Array(positions.count * 3);
  for (let n = 0; n < positions.count; n += 1) {
    if (light) lightOn(light, normal.fromBufferAttribute(normals, n), lit);
    else lit.setRGB(1, 1, 1);
    colours.set([material.color.r * lit.r, material.color.g * lit.g, material.color.b * lit.b], n * 3);
  }
  geometry.setAttribute('color', new BufferAttribute(colours, 3));
  return geometry;
}

/**
 * A model of many plain parts as one mesh: one call to draw it. With `light` its shading is worked out once and for all, and costs
 * nothing in a frame but its level.
 */
export function mergedModel(model: Group, light: FixedLight | null): Mesh {
  model.updateMatrixWorld(true);
  const parts: BufferGeometry[] = [];
  model.traverse((part) => {
    if (part instanceof Mesh) parts.push(partGeometry(part, light));
  });
  const merged = mergeGeometries(parts);
  for (const part of parts) part.dispose();
  model.traverse((part) => {
    if (!(part instanceof Mesh)) return;
    part.geometry.dispose();
    (part.material as Material).dispose();
  });
  return new Mesh(merged, light ? createLitMaterial() : new MeshLambertMaterial({ vertexColors: true }));
}

/** Level of the light that such a model is seen in; one that the lamps of the scene light follows by itself. */
export function setModelLevel(model: Mesh, level: number): void {
  if (!(model.material instanceof MeshLambertMaterial)) (model.material as LitMaterial).uniforms.level.value = level;
}

export function disposeModel(model: Mesh): void {
  model.geometry.dispose();
  (model.material as Material).dispose();
}
