export type ViewName = 'main' | 'under';

/** A frame of the page in the canvas's own coordinates: CSS pixels, from the lower left. */
export interface CanvasBox {
  left: number;
  bottom: number;
  width: number;
  height: number;
}

export interface ViewRects {
  inCanvas(name: ViewName): CanvasBox | null;
  client(name: ViewName): DOMRect | null;
  close(): void;
}

/** Knows where the frames lie in the canvas, measured when the layout changes and not in every frame. */
export function createViewRects(
  canvas: HTMLCanvasElement,
  frames: Record<ViewName, HTMLElement | null>,
  onChange: () => void,
): ViewRects {
  const boxes = new Map<ViewName, CanvasBox>();
  const measure = () => {
    const whole = canvas.getBoundingClientRect();
    boxes.clear();
    for (const name of ['main', 'under'] as const) {
      const rect = frames[name]?.getBoundingClientRect();
      if (!rect || rect.width < 8 || rect.height < 8) continue;
      boxes.set(name, {
        left: rect.left - whole.left,
        bottom: whole.bottom - rect.bottom,
        width: rect.width,
        height: rect.height,
      });
    }
    onChange();
  };
  const observer = new ResizeObserver(measure);
  observer.observe(canvas);
  for (const frame of Object.values(frames)) if (frame) observer.observe(frame);
  measure();
  return {
    inCanvas: (name) => boxes.get(name) ?? null,
    client: (name) => frames[name]?.getBoundingClientRect() ?? null,
    close: () => observer.disconnect(),
  };
}
