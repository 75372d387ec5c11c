import type { PerspectiveCamera } from 'three';

/** Fixed stations of the free camera. */
export const STATIONS = ['operator', 'shoulder', 'beside', 'above', 'under', 'along'] as const;
export type Station = (typeof STATIONS)[number];

export interface CameraPose {
  eye: [number, number, number];
  target: [number, number, number];
}

export const BENCH_FOV_DEG = 30;
const MARGIN_MM = 26;

/** Distance from which a width and height, mm, fill a picture of this aspect. */
function fitDistance(widthMm: number, heightMm: number, aspect: number): number {
  const half = Math.tan((BENCH_FOV_DEG * Math.PI) / 360);
  return Math.max(heightMm / 2 / half, widthMm / 2 / (half * aspect));
}

/** Where a station stands for a plate of this size and a picture of this aspect. */
export function stationPose(station: Station, lengthMm: number, widthMm: number, aspect: number): CameraPose {
  const middle: [number, number, number] = [lengthMm / 2, widthMm / 2, 0];
  const look = (elevationDeg: number, azimuthDeg: number, distance: number, lift = 0): CameraPose => {
    const elevation = (elevationDeg * Math.PI) / 180;
    const azimuth = (azimuthDeg * Math.PI) / 180;
    return {
      eye: [
        middle[0] + Math.sin(azimuth) * Math.cos(elevation) * distance,
        middle[1] - Math.cos(azimuth) * Math.cos(elevation) * distance,
        middle[2] + Math.sin(elevation) * distance,
      ],
      target: [middle[0], middle[1], lift],
    };
  };
  const across = lengthMm + 2 * MARGIN_MM;
  const deep = widthMm + 2 * MARGIN_MM;
  switch (station) {
    case 'operator':
      return look(52, 0, fitDistance(across, deep * 0.86, aspect) + widthMm * 0.3);
    case 'shoulder':
      // Over the right shoulder of who cuts: higher, nearer, and to the side of the torch's handle.
      return look(38, 34, fitDistance(across * 0.62, deep * 0.62, aspect) + widthMm * 0.2);
    case 'beside':
      // The head low beside the plate: the gap between tip and metal is seen in true height.
      return look(7, 0, fitDistance(across * 0.7, deep * 0.6, aspect) + widthMm * 0.5, 4);
    case 'above':
      return look(88, 0, fitDistance(across, deep, aspect));
    case 'under':
      return look(-28, 0, fitDistance(across, deep * 0.8, aspect) + widthMm * 0.2, -20);
    case 'along':
      return look(20, -62, fitDistance(across * 0.9, deep, aspect));
  }
}

/** The same place to look at, from an eye that has gone to its right and up, mm. */
export function shiftedPose({ eye, target }: CameraPose, rightMm: number, upMm: number): CameraPose {
  const [x, y] = [target[0] - eye[0], target[1] - eye[1]];
  const far = Math.hypot(x, y) || 1;
  return { eye: [eye[0] + (y / far) * rightMm, eye[1] - (x / far) * rightMm, eye[2] + upMm], target };
}

export function applyPose(camera: PerspectiveCamera, pose: CameraPose): void {
  camera.up.set(0, 0, 1);
  camera.position.set(...pose.eye);
  camera.lookAt(...pose.target);
  camera.updateMatrixWorld();
}

/**
 * The eye under the plate: low beside the cut, looking across the way of travel, so that the lean of the sparks is seen in true
 * angle. It follows the torch, and turns with the heading slowly.
 */
export interface UnderEye {
  xMm: number;
  yMm: number;
  headingRad: number;
}

const UNDER_DISTANCE_MM = 150;
const UNDER_DROP_MM = 34;
const FOLLOW_PER_S = 5;
const TURN_PER_S = 1.2;

function turnBetween(from: number, to: number): number {
  let turn = (to - from) % (2 * Math.PI);
  if (turn > Math.PI) turn -= 2 * Math.PI;
  if (turn < -Math.PI) turn += 2 * Math.PI;
  return turn;
}

/** Moves the eye toward where the torch is; `seconds` 0 or a negative figure puts it there at once. */
export function followUnder(eye: UnderEye, xMm: number, yMm: number, headingRad: number, seconds: number): void {
  const jump = !(seconds > 0) || !Number.isFinite(eye.xMm);
  const place = jump ? 1 : 1 - Math.exp(-seconds * FOLLOW_PER_S);
  const turn = jump ? 1 : 1 - Math.exp(-seconds * TURN_PER_S);
  eye.xMm = jump ? xMm : eye.xMm + (xMm - eye.xMm) * place;
  eye.yMm = jump ? yMm : eye.yMm + (yMm - eye.yMm) * place;
  eye.headingRad += turnBetween(eye.headingRad, headingRad) * turn;
}

export function underPose(eye: UnderEye, thicknessMm: number): CameraPose {
  // Square to the travel on its right hand: travel runs from left to right in the picture.
  const rightX = Math.sin(eye.headingRad);
  const rightY = -Math.cos(eye.headingRad);
  const middle = -thicknessMm - 22;
  return {
    eye: [eye.xMm + rightX * UNDER_DISTANCE_MM, eye.yMm + rightY * UNDER_DISTANCE_MM, middle - UNDER_DROP_MM],
    target: [eye.xMm, eye.yMm, middle],
  };
}
