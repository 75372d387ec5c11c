import type { Surface } from '../../sim-core/index.ts';

/** What lies on the metal, painted over its skin: a ground, and marks that tell it from the others without the colour. */
const LOOKS: Record<
  Exclude<Surface, 'bare'>,
  { ground: string; mark: string; draw(context: CanvasRenderingContext2D, s: number): void }
> = {
  'mill-scale': {
    ground: 'rgb(62 70 84 / 0.72)',
    mark: 'rgb(176 190 205 / 0.5)',
    draw(context, s) {
      for (const [x, y] of [
        [0.1, 0.3],
        [0.55, 0.75],
      ] as const)
        context.fillRect(x * s, y * s, 0.36 * s, 0.07 * s);
    },
  },
  rust: {
    ground: 'rgb(128 72 38 / 0.74)',
    mark: 'rgb(58 30 18 / 0.55)',
    draw(context, s) {
      for (const [x, y, r] of [
        [0.25, 0.3, 0.09],
        [0.7, 0.55, 0.06],
        [0.4, 0.82, 0.05],
      ] as const) {
        context.beginPath();
        context.arc(x * s, y * s, r * s, 0, Math.PI * 2);
        context.fill();
      }
    },
  },
  paint: {
    ground: 'rgb(52 92 84 / 0.92)',
    mark: 'rgb(200 222 210 / 0.3)',
    draw(context, s) {
      context.lineWidth = 0.08 * s;
      context.beginPath();
      context.moveTo(0, s);
      context.lineTo(s, 0);
      context.stroke();
    },
  },
  zinc: {
    ground: 'rgb(176 188 198 / 0.7)',
    mark: 'rgb(96 110 124 / 0.55)',
    draw(context, s) {
      context.lineWidth = 0.05 * s;
      context.beginPath();
      context.moveTo(0, s / 2);
      context.lineTo(s / 2, 0);
      context.lineTo(s, s / 2);
      context.lineTo(s / 2, s);
      context.closePath();
      context.stroke();
    },
  },
};

/** Length of one repeat of the pattern on the plate, mm. */
const REPEAT_MM = 7;
const LABEL_MM = 5;
const LABEL_INSET_MM = 4;

/** Paints a surface over the whole canvas, and its name in the near left corner. `scale` = pixels a millimetre. */
export function paintSurface(context: CanvasRenderingContext2D, surface: Surface, name: string, scale: number): void {
  if (surface === 'bare') return;
  const look = LOOKS[surface];
  const { width, height } = context.canvas;
  context.fillStyle = look.ground;
  context.fillRect(0, 0, width, height);
  const side = REPEAT_MM * scale;
  context.fillStyle = look.mark;
  context.strokeStyle = look.mark;
  for (let y = 0; y < height; y += side) {
    for (let x = 0; x < width; x += side) {
      context.save();
      context.translate(x, y);
      look.draw(context, side);
      context.restore();
    }
  }
  context.font = `600 ${LABEL_MM * scale}px system-ui, sans-serif`;
  context.fillStyle = 'rgb(250 246 232 / 0.95)';
  context.strokeStyle = 'rgb(20 24 24 / 0.8)';
  context.lineWidth = 0.9 * scale;
  context.lineJoin = 'round';
  const at = [LABEL_INSET_MM * scale, height - LABEL_INSET_MM * scale] as const;
  context.strokeText(name, ...at);
  context.fillText(name, ...at);
}
