import { cos, PI, power, sin } from '../math/elementary.ts';
import type { JetPose } from './jet.ts';
import { MODEL } from './model-constants.ts';

/** A lobe of thrown melt: directions that carry the same share each, about the axis (0, 0, 1). */
interface Lobe {
  x: Float64Array;
  y: Float64Array;
  z: Float64Array;
}

const RINGS = 5;
const PER_RING = 8;

/** Directions with a density of cos^n about the axis: each ring holds the same share of what is thrown. */
function createLobe(sharpness: number): Lobe {
  const count = RINGS * PER_RING;
  const lobe = { x: new Float64Array(count), y: new Float64Array(count), z: new Float64Array(count) };
  for (let ring = 0; ring < RINGS; ring++) {
    const rise = power(1 - (ring + 0.5) / RINGS, 1 / (sharpness + 1));
    const flat = Math.sqrt(1 - rise * rise);
    for (let n = 0; n < PER_RING; n++) {
      const turn = (2 * PI * (n + 0.5 * (ring & 1))) / PER_RING;
      const at = ring * PER_RING + n;
      lobe.x[at] = flat * cos(turn);
      lobe.y[at] = flat * sin(turn);
      lobe.z[at] = rise;
    }
  }
  return lobe;
}

/** A shallow crater sprays wide, a deep hole throws along its own axis. */
const wide = createLobe(MODEL.shallowLobePower);
const narrow = createLobe(MODEL.deepLobePower);

/** What is thrown out of a hole: the middle of the lobe, a unit vector, where it starts, and how deep the hole is in its own widths. */
export interface ThrownLobe {
  x: number;
  y: number;
  z: number;
  /** Where it comes out, from the axis's foot on the top surface, mm. */
  fromX: number;
  fromY: number;
  widthsDeep: number;
  /** Share that arrives on the torch's front, 0 to 1: what `followBlowback` writes. */
  onTorch: number;
}

/** Share of a lobe that flies into the front of the torch, a disc about the tip square to its axis. */
export function followBlowback(lobe: ThrownLobe, pose: JetPose): void {
  const deep = lobe.widthsDeep < 1 ? lobe.widthsDeep : 1;
  lobe.onTorch = (1 - deep) * caught(wide, lobe, pose) + deep * caught(narrow, lobe, pose);
}

function caught(rays: Lobe, lobe: ThrownLobe, pose: JetPose): number {
  const { leanTanX, leanTanY, heightMm } = pose;
  const lengthening = Math.sqrt(1 + leanTanX * leanTanX + leanTanY * leanTanY);
  const axisX = leanTanX / lengthening;
  const axisY = leanTanY / lengthening;
  const axisZ = 1 / lengthening;
  // From the mouth of the hole to the tip.
  const wx = leanTanX * heightMm - lobe.fromX;
  const wy = leanTanY * heightMm - lobe.fromY;
  const away = wx * axisX + wy * axisY + heightMm * axisZ;
  // Two directions square to the lobe's middle; it always rises, so the first is never lost.
  const across = Math.sqrt(lobe.x * lobe.x + lobe.z * lobe.z);
  const ux = lobe.z / across;
  const uz = -lobe.x / across;
  const vx = lobe.y * uz;
  const vy = lobe.z * ux - lobe.x * uz;
  const vz = -lobe.y * ux;
  const radius = MODEL.torchFrontRadiusMm;
  let hits = 0;
  for (let n = 0; n < rays.x.length; n++) {
    const a = rays.x[n]!;
    const b = rays.y[n]!;
    const c = rays.z[n]!;
    const x = a * ux + b * vx + c * lobe.x;
    const y = b * vy + c * lobe.y;
    const z = a * uz + b * vz + c * lobe.z;
    const toward = x * axisX + y * axisY + z * axisZ;
    // Into the plate, or away from the torch.
    if (z <= 0 || toward <= 1e-6) continue;
    const flight = away / toward;
    const px = x * flight - wx;
    const py = y * flight - wy;
    const pz = z * flight - heightMm;
    // What flies past at up to a quarter more than the radius still grazes the rim.
    const over = Math.sqrt(px * px + py * py + pz * pz) / radius;
    if (over <= 1) hits++;
    else if (over < 1.25) hits += (1.25 - over) / 0.25;
  }
  return hits / rays.x.length;
}
