import type { PointerEvent } from 'react';
import type { SceneHandle } from '../../scene/scene-handle.ts';
import type { PlatePoint } from './cut-places.ts';

/** How far a large step of the keys goes, mm. */
export const FAR_STEP_MM = 5;
/** Step of the keys on the metal, mm: from cell to cell. */
export const CELL_STEP_MM = 0.25;

/** The cross itself, dark under light, so that it is seen on any metal and any map. */
export function Cross({ sign }: { sign: string }) {
  return (
    <>
      <svg viewBox="-18 -18 36 36" aria-hidden="true" focusable="false">
        <path className="cross-under" d="M-15 0h10M5 0h10M0-15v10M0 5v10" />
        <path className="cross-over" d="M-15 0h10M5 0h10M0-15v10M0 5v10" />
        <circle className="cross-over" r={1.6} />
      </svg>
      {sign !== '' && (
        <span className="cross-sign" aria-hidden="true">
          {sign}
        </span>
      )}
    </>
  );
}

export interface Dragged {
  scene: SceneHandle;
  at: PlatePoint;
  onDrag(point: PlatePoint): void;
}

/** While the pointer is held down on it, a handle goes where the pointer is on the plate. */
export function dragging({ scene, onDrag }: Dragged) {
  return {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
      const point = scene.plateFromScreen(event.clientX, event.clientY, 0);
      if (point) onDrag(point);
    },
  };
}
