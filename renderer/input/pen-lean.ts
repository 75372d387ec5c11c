const DEG_PER_RAD = 180 / Math.PI;
/** A pen that is held flat tells next to nothing of where it leans. */
const MOST_DEG = 80;

/** What a pen tells of how it is held; browsers give one pair or both. Angles as Pointer Events has them. */
export interface PenAttitude {
  tiltX: number;
  tiltY: number;
  altitudeAngle?: number;
  azimuthAngle?: number;
}

/**
 * How the handle leans, deg, when the pen is the torch: toward +x, and toward +y, which runs away from the person while a
 * screen's y runs toward them. Tilt is the angle in each plane, as the lean of the torch is; from altitude and azimuth it is
 * worked out by the relation that Pointer Events Level 3 gives.
 */
export function penLean({ tiltX, tiltY, altitudeAngle, azimuthAngle }: PenAttitude): { xDeg: number; yDeg: number } {
  let x = tiltX;
  let y = tiltY;
  if (x === 0 && y === 0 && altitudeAngle !== undefined && azimuthAngle !== undefined && altitudeAngle < Math.PI / 2) {
    const tan = Math.tan(Math.max(altitudeAngle, 1e-3));
    x = Math.atan(Math.cos(azimuthAngle) / tan) * DEG_PER_RAD;
    y = Math.atan(Math.sin(azimuthAngle) / tan) * DEG_PER_RAD;
  }
  const within = (deg: number) => Math.max(-MOST_DEG, Math.min(MOST_DEG, deg));
  // Adding nothing makes a zero of either sign a plain one.
  return { xDeg: within(x) + 0, yDeg: -within(y) + 0 };
}
