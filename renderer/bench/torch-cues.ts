/**
 * The drawing beside the torch, as plain figures: px about the tip on the screen. Each cue is told by its shape and by where its
 * mark lies; colour only underlines it.
 */

/** The ribbon of speed lies below the tip: its middle third is the window. */
export const RIBBON = { left: -78, width: 156, top: 62, height: 14 } as const;
/** The fan of the sparks hangs to the right of the ribbon's middle, below it. */
export const FAN = { x: 126, y: 40, length: 46 } as const;
/** What the ribbon with its mark, the words below it and the fan need to the left and the right of the tip. */
const ROOM = { left: 96, right: 136 } as const;
/** The ring of stand-off about the tip: between the two thin rings is right. */
export const RING = { low: 22, high: 34, least: 10, most: 48 } as const;
/** The ghost of the handle begins this far from the tip and is this long, mm of the plate. */
export const GHOST_MM = { from: 14, to: 60 } as const;

const clamp = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));

/** How far ribbon and fan stand aside so that they are seen whole where the tip is at `x` of a frame so wide, px to the right. */
export function standAside(x: number, width: number): number {
  if (width < ROOM.left + ROOM.right) return 0;
  return clamp(x, ROOM.left, width - ROOM.right) - x;
}

/** Place of a speed on the ribbon, px from its left end; at its ends stays what lies beyond. */
export function onRibbon(value: number, low: number, high: number): number {
  return clamp(RIBBON.width * (1 / 3 + (value - low) / (high - low) / 3), 0, RIBBON.width);
}

/** Radius of the ring for a stand-off, px: the band lies between the thin rings, and more is wider. */
export function ringRadius(standOffMm: number, low: number, high: number): number {
  return clamp(RING.low + ((standOffMm - low) / (high - low)) * (RING.high - RING.low), RING.least, RING.most);
}

/** Foot of a ray of the fan, trailing to the left by an angle from straight down. */
export function fanFoot(deg: number, length: number = FAN.length): { x: number; y: number } {
  const angle = (clamp(deg, -60, 89) * Math.PI) / 180;
  return { x: FAN.x - Math.sin(angle) * length, y: FAN.y + Math.cos(angle) * length };
}

/** A point of the handle, mm from the tip along an axis that leans so, in the plate's frame. */
export function alongHandle(
  tip: { xMm: number; yMm: number; heightMm: number },
  leanXDeg: number,
  leanYDeg: number,
  distanceMm: number,
): { x: number; y: number; z: number } {
  const [x, y] = [Math.tan((leanXDeg * Math.PI) / 180), Math.tan((leanYDeg * Math.PI) / 180)];
  const share = distanceMm / Math.hypot(x, y, 1);
  return { x: tip.xMm + x * share, y: tip.yMm + y * share, z: tip.heightMm + share };
}
