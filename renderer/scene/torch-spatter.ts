import { type BufferGeometry, Color, Matrix4, Mesh, MeshBasicMaterial, OctahedronGeometry } from 'three';
import { mergeGeometries } from 'three/examples/jsm/utils/BufferGeometryUtils.js';
import type { Ejecta } from '../../sim-core/index.ts';

/** Melt heat that one bead on the torch stands for, mJ. */
const MJ_PER_BEAD = 17_500;
const BEADS = 48;
/** Eight faces of their own. */
const BEAD_CORNERS = 24;
const COLD = new Color('#2e2925');
const HOT = new Color('#ff7a2a');
/** Spray from the top at this rate keeps what has just struck glowing, mm3/s. */
const HOT_FROM_MM3_PER_S = 15;

/** How many beads a dose of thrown-back melt leaves on the torch's front: none before the first whole one. */
export function spatterCount(blowbackMj: number): number {
  return Number.isFinite(blowbackMj) ? Math.max(0, Math.min(BEADS, Math.floor(blowbackMj / MJ_PER_BEAD))) : 0;
}

/** Metal that was thrown back and sticks to the front of the torch, in the torch's own frame: tip at the origin, axis along +z. */
export function createTorchSpatter(): Mesh<BufferGeometry, MeshBasicMaterial> {
  const matrix = new Matrix4();
  const beads: BufferGeometry[] = [];
  for (let n = 0; n < BEADS; n += 1) {
    // The golden angle spreads them; the first strike low, the later ones higher up.
    const turn = n * 2.39996;
    const z = 0.5 + 8 * (n / BEADS) ** 0.8 * ((n * 0.618) % 1);
    const radius = 2.4 + 0.23 * z;
    const size = 0.35 + 0.5 * ((n * 0.381) % 1);
    matrix.makeScale(size, size, size * 0.8).setPosition(Math.cos(turn) * radius, Math.sin(turn) * radius, z);
    beads.push(new OctahedronGeometry(1, 0).applyMatrix4(matrix));
  }
  // One shape rather than instances: without a graphics card each instance costs as much as a draw call.
  const mesh = new Mesh(mergeGeometries(beads), new MeshBasicMaterial({ color: COLD }));
  for (const bead of beads) bead.dispose();
  mesh.visible = false;
  return mesh;
}

/** Brings it up to the run. */
export function showSpatter(mesh: Mesh<BufferGeometry, MeshBasicMaterial>, blowbackMj: number, ejecta: Readonly<Ejecta>): void {
  const count = spatterCount(blowbackMj);
  mesh.visible = count > 0;
  mesh.geometry.setDrawRange(0, count * BEAD_CORNERS);
  mesh.material.color.copy(ejecta.topRateMm3PerS > HOT_FROM_MM3_PER_S ? HOT : COLD);
}
