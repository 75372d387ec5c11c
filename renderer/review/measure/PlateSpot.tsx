import { type ReactNode, useEffect, useRef } from 'react';
import type { SceneHandle } from '../../scene/scene-handle.ts';
import type { PlatePoint } from './cut-places.ts';

/** Something of the page that stands over a place of the plate, wherever the camera goes. */
export function PlateSpot({ scene, at, children }: { scene: SceneHandle; at: PlatePoint; children: ReactNode }) {
  const spot = useRef<HTMLDivElement>(null);
  const { xMm, yMm } = at;
  useEffect(() => {
    const place = () => {
      const element = spot.current;
      const seen = scene.screenFromPlate(xMm, yMm);
      if (!element) return;
      element.style.visibility = seen ? 'visible' : 'hidden';
      if (seen) element.style.transform = `translate(${seen.left.toFixed(1)}px, ${seen.top.toFixed(1)}px)`;
    };
    place();
    return scene.onDrawn(place);
  }, [scene, xMm, yMm]);
  return (
    <div className="plate-spot" ref={spot}>
      {children}
    </div>
  );
}
