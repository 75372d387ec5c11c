/**
 * Five levels of a figure along a cut, 1 = as it should be, 5 = worst: a colour, and a pattern of its own, so that nothing rests on
 * colour alone. The colours fall in luminance from step to step, for every kind of colour sight. Beside them stands the mark of
 * metal that was not cut through, which has no figure: broad black and white stripes.
 */
export const LEVELS = 5;
export const UNCUT_MARK = 6;

export const LEVEL_COLOURS = ['#fbf3cf', '#f0b548', '#cf6a35', '#8c2f57', '#331747', '#f4f4f0'] as const;

/** Ink of a level's number: dark on light ones, light on dark ones. */
export const LEVEL_INKS = ['#2b2b20', '#3a2204', '#240b02', '#fbe9f0', '#f1e4f7', '#101414'] as const;

/** Ink of the patterns: seen from near, and thin enough to leave the colour's luminance from afar. */
const PATTERN_INKS = ['#2b2b20', '#7a4c10', '#6b2a0c', '#d58fb0', '#9f82b8', '#101414'] as const;

/** What stands for a level in writing. */
export function levelSign(level: number): string {
  return level === UNCUT_MARK ? '×' : String(level);
}

/** Strokes of a pattern in a square of side 1, each from x1, y1 to x2, y2: more of them on every level. */
const STROKES: readonly (readonly (readonly [number, number, number, number])[])[] = [
  [],
  [[0.5, 0.2, 0.5, 0.8]],
  [
    [0, 1, 1, 0],
    [-0.5, 0.5, 0.5, -0.5],
    [0.5, 1.5, 1.5, 0.5],
  ],
  [
    [0, 1, 1, 0],
    [0, 0, 1, 1],
  ],
  [
    [0, 0.17, 1, 0.17],
    [0, 0.5, 1, 0.5],
    [0, 0.83, 1, 0.83],
    [0.17, 0, 0.17, 1],
    [0.5, 0, 0.5, 1],
    [0.83, 0, 0.83, 1],
  ],
  [
    [0, 1, 1, 0],
    [-0.5, 0.5, 0.5, -0.5],
    [0.5, 1.5, 1.5, 0.5],
  ],
];

/** Fills a box with the colour and pattern of a level 1 to 6; `pitch` is the side of the pattern's square. */
export function paintLevel(
  context: CanvasRenderingContext2D,
  level: number,
  x: number,
  y: number,
  width: number,
  height: number,
  pitch: number,
): void {
  const index = Math.max(0, Math.min(LEVEL_COLOURS.length - 1, Math.round(level) - 1));
  context.save();
  context.beginPath();
  context.rect(x, y, width, height);
  context.clip();
  context.fillStyle = LEVEL_COLOURS[index] as string;
  context.fillRect(x, y, width, height);
  context.strokeStyle = PATTERN_INKS[index] as string;
  context.lineWidth = pitch * (level === UNCUT_MARK ? 0.34 : 0.08);
  context.beginPath();
  for (let left = x; left < x + width; left += pitch) {
    for (let low = y; low < y + height; low += pitch) {
      for (const [x1, y1, x2, y2] of STROKES[index] ?? []) {
        context.moveTo(left + x1 * pitch, low + y1 * pitch);
        context.lineTo(left + x2 * pitch, low + y2 * pitch);
      }
    }
  }
  context.stroke();
  context.restore();
}
