import { BufferAttribute, BufferGeometry, Color, DynamicDrawUsage, type Matrix4, Mesh, OctahedronGeometry, Vector3 } from 'three';
import { type FixedLight, lightOn } from './light-level.ts';
import { createLitMaterial, type LitMaterial } from './lit-material.ts';

const corners = new OctahedronGeometry(1, 0).getAttribute('position');
const [a, b, c, normal, side] = [new Vector3(), new Vector3(), new Vector3(), new Vector3(), new Vector3()];
const lit = new Color();

/**
 * Small faceted beads that lie where they were put. All are one shape with their light worked out once: without a graphics card an
 * instance costs as much as a draw call.
 */
export interface BeadMesh {
  readonly mesh: Mesh<BufferGeometry, LitMaterial>;
  readonly count: number;
  /** One more bead: a unit octahedron under this matrix. Beyond the capacity nothing is added. */
  add(matrix: Matrix4, colour: Color): void;
  clear(): void;
  dispose(): void;
}

export function createBeadMesh(capacity: number, light: FixedLight): BeadMesh {
  const each = corners.count * 3;
  const geometry = new BufferGeometry();
  const positions = new BufferAttribute(new Float32Array(capacity * each), 3).setUsage(DynamicDrawUsage);
  const colours = new BufferAttribute(new Float32Array(capacity * each), 3).setUsage(DynamicDrawUsage);
  geometry.setAttribute('position', positions);
  geometry.setAttribute('color', colours);
  const mesh = new Mesh(geometry, createLitMaterial());
  mesh.frustumCulled = false;
  let count = 0;
  const show = () => {
    mesh.visible = count > 0;
    geometry.setDrawRange(0, count * corners.count);
  };
  show();
  return {
    mesh,
    get count() {
      return count;
    },
    add(matrix, colour) {
      if (count >= capacity) return;
      const first = count * corners.count;
      for (let n = 0; n < corners.count; n += 3) {
        for (const [k, corner] of [a, b, c].entries()) {
          corner.fromBufferAttribute(corners, n + k).applyMatrix4(matrix);
          positions.setXYZ(first + n + k, corner.x, corner.y, corner.z);
        }
        normal.subVectors(b, a).cross(side.subVectors(c, a)).normalize();
        lightOn(light, normal, lit).multiply(colour);
        for (let k = 0; k < 3; k += 1) colours.setXYZ(first + n + k, lit.r, lit.g, lit.b);
      }
      for (const attribute of [positions, colours]) {
        attribute.addUpdateRange(count * each, each);
        attribute.needsUpdate = true;
      }
      count += 1;
      show();
    },
    clear() {
      count = 0;
      show();
    },
    dispose() {
      geometry.dispose();
      mesh.material.dispose();
    },
  };
}
