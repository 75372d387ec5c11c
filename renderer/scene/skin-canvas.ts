import type { MaterialId, Surface } from '../../sim-core/index.ts';
import { paintSurface } from './skin-surface.ts';

/** Points of the line to be cut, plate frame, mm. */
export type MarkedLine = readonly { xMm: number; yMm: number }[];

interface SkinLook {
  base: [number, number, number];
  /** Strength of the mottling, and of the streaks left by rolling or brushing. */
  mottle: number;
  streak: number;
}

const LOOKS: Record<MaterialId, SkinLook> = {
  'mild-steel': { base: [84, 88, 92], mottle: 13, streak: 3 },
  'stainless-steel': { base: [150, 153, 154], mottle: 4, streak: 11 },
  aluminium: { base: [178, 182, 186], mottle: 3, streak: 7 },
};

/** Colour of bare cut metal by material, for the faces the arc has made. */
export const BARE_COLOUR: Record<MaterialId, string> = {
  'mild-steel': '#767069',
  'stainless-steel': '#8f8b84',
  aluminium: '#a9abad',
};

const PIXELS_HIGH = 2048;

function noise(): () => number {
  let seed = 0x51f15e;
  return () => {
    seed ^= seed << 13;
    seed ^= seed >>> 17;
    seed ^= seed << 5;
    return (seed >>> 0) / 4294967296;
  };
}

/** Draws the upper face: skin of the material, what lies on it with its name, the marked line in chalk with a tick at its start, and a bar across its end. */
export function paintSkin(
  material: MaterialId,
  lengthMm: number,
  widthMm: number,
  line: MarkedLine,
  stopsAtEnd: boolean,
  surface: Surface,
  surfaceName: string,
): HTMLCanvasElement {
  const scale = Math.min(10, PIXELS_HIGH / Math.max(lengthMm, widthMm));
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(lengthMm * scale);
  canvas.height = Math.round(widthMm * scale);
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('The browser gives no 2D canvas to paint the plate.');
  const random = noise();
  paintMetal(context, LOOKS[material], random);
  paintSurface(context, surface, surfaceName, scale);
  context.save();
  // Canvas rows run down, the plate's y runs up.
  context.translate(0, canvas.height);
  context.scale(scale, -scale);
  paintChalk(context, line, random);
  paintEnds(context, line, stopsAtEnd);
  context.restore();
  return canvas;
}

function paintMetal(context: CanvasRenderingContext2D, look: SkinLook, random: () => number): void {
  const { width, height } = context.canvas;
  const [r, g, b] = look.base;
  context.fillStyle = `rgb(${r} ${g} ${b})`;
  context.fillRect(0, 0, width, height);
  // Broad clouds, then scale flakes of every size down to a pixel, then the direction of rolling.
  for (let n = 0; n < 60; n += 1)
    blot(context, random() * width, random() * height, 120 + random() * 320, (random() - 0.5) * look.mottle);
  for (let n = 0; n < 2600; n += 1) {
    const size = 1 + random() ** 4 * 22;
    const shade = (random() - 0.45) * 2 * look.mottle;
    context.fillStyle = shade > 0 ? `rgb(214 216 216 / ${shade / 190})` : `rgb(22 24 30 / ${-shade / 120})`;
    context.beginPath();
    context.ellipse(random() * width, random() * height, size * 1.9, size, 0, 0, Math.PI * 2);
    context.fill();
  }
  for (let n = 0; n < 1400; n += 1) {
    const shade = (random() - 0.5) * 2 * look.streak;
    context.fillStyle = shade > 0 ? `rgb(255 255 255 / ${shade / 160})` : `rgb(0 0 0 / ${-shade / 160})`;
    context.fillRect(random() * width, random() * height, 40 + random() * 420, 1);
  }
}

function blot(context: CanvasRenderingContext2D, x: number, y: number, radius: number, shade: number): void {
  const gradient = context.createRadialGradient(x, y, 0, x, y, radius);
  const tone = shade > 0 ? '255 250 240' : '16 20 30';
  gradient.addColorStop(0, `rgb(${tone} / ${Math.abs(shade) / 110})`);
  gradient.addColorStop(1, `rgb(${tone} / 0)`);
  context.fillStyle = gradient;
  context.fillRect(x - radius, y - radius, radius * 2, radius * 2);
}

function paintChalk(context: CanvasRenderingContext2D, line: MarkedLine, random: () => number): void {
  context.lineCap = 'round';
  context.lineJoin = 'round';
  for (const [width, alpha] of [
    [1.3, 0.28],
    [0.75, 0.85],
  ] as const) {
    context.lineWidth = width;
    context.strokeStyle = `rgb(244 240 226 / ${alpha})`;
    context.beginPath();
    line.forEach((point, n) => {
      if (n === 0) context.moveTo(point.xMm, point.yMm);
      else context.lineTo(point.xMm, point.yMm);
    });
    context.stroke();
  }
  // Chalk skips over the rough places.
  for (const point of line) {
    if (random() > 0.3) continue;
    context.fillStyle = 'rgb(84 88 92 / 0.3)';
    context.fillRect(point.xMm + random() - 0.5, point.yMm + (random() - 0.5) * 0.8, 0.5, 0.3);
  }
}

function paintEnds(context: CanvasRenderingContext2D, line: MarkedLine, stopsAtEnd: boolean): void {
  const across = (at: number, to: number, half: number) => {
    const here = line[at];
    const there = line[to];
    if (!here || !there) return;
    const length = Math.hypot(there.xMm - here.xMm, there.yMm - here.yMm) || 1;
    const nx = -(there.yMm - here.yMm) / length;
    const ny = (there.xMm - here.xMm) / length;
    context.beginPath();
    context.moveTo(here.xMm - nx * half, here.yMm - ny * half);
    context.lineTo(here.xMm + nx * half, here.yMm + ny * half);
    context.stroke();
  };
  context.lineWidth = 0.9;
  context.strokeStyle = 'rgb(244 240 226 / 0.9)';
  const inset = Math.min(line.length - 1, 2);
  across(inset, inset + 1, 4);
  if (stopsAtEnd) across(line.length - 1, line.length - 2, 5);
}
