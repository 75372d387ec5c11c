import { Color, InstancedMesh, Matrix4, MeshBasicMaterial, OctahedronGeometry } from 'three';
import type { Ejecta } from '../../sim-core/index.ts';

/** Melt heat that one bead on the torch stands for, mJ. */
const MJ_PER_BEAD = 17_500;
const BEADS = 48;
const COLD = new Color('#2e2925');
const HOT = new Color('#ff7a2a');
/** Spray from the top at this rate keeps what has just struck glowing, mm3/s. */
const HOT_FROM_MM3_PER_S = 15;

/** How many beads a dose of thrown-back melt leaves on the torch's front: none before the first whole one. */
export function spatterCount(blowbackMj: number): number {
  return Number.isFinite(blowbackMj) ? Math.max(0, Math.min(BEADS, Math.floor(blowbackMj / MJ_PER_BEAD))) : 0;
}

/** Metal that was thrown back and sticks to the front of the torch, in the torch's own frame: tip at the origin, axis along +z. */
export function createTorchSpatter(): InstancedMesh<OctahedronGeometry, MeshBasicMaterial> {
  const mesh = new InstancedMesh(new OctahedronGeometry(1, 0), new MeshBasicMaterial({ color: COLD }), BEADS);
  const matrix = new Matrix4();
  for (let n = 0; n < BEADS; n += 1) {
    // The golden angle spreads them; the first strike low, the later ones higher up.
    const turn = n * 2.39996;
    const z = 0.5 + 8 * (n / BEADS) ** 0.8 * ((n * 0.618) % 1);
    const radius = 2.4 + 0.23 * z;
    const size = 0.35 + 0.5 * ((n * 0.381) % 1);
    matrix.makeScale(size, size, size * 0.8).setPosition(Math.cos(turn) * radius, Math.sin(turn) * radius, z);
    mesh.setMatrixAt(n, matrix);
  }
  mesh.count = 0;
  mesh.frustumCulled = false;
  return mesh;
}

/** Brings it up to the run. */
export function showSpatter(
  mesh: InstancedMesh<OctahedronGeometry, MeshBasicMaterial>,
  blowbackMj: number,
  ejecta: Readonly<Ejecta>,
): void {
  mesh.count = spatterCount(blowbackMj);
  mesh.visible = mesh.count > 0;
  mesh.material.color.copy(ejecta.topRateMm3PerS > HOT_FROM_MM3_PER_S ? HOT : COLD);
}
