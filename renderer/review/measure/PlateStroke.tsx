import { useEffect, useRef } from 'react';
import type { SceneHandle } from '../../scene/scene-handle.ts';
import type { PlatePoint } from './cut-places.ts';

/** A straight stroke on the plate from one place to another. */
export function PlateStroke({ scene, ends }: { scene: SceneHandle; ends: readonly [PlatePoint, PlatePoint] }) {
  const under = useRef<SVGLineElement>(null);
  const over = useRef<SVGLineElement>(null);
  const [from, to] = ends;
  const { xMm: x1, yMm: y1 } = from;
  const { xMm: x2, yMm: y2 } = to;
  useEffect(() => {
    const place = () => {
      const a = scene.screenFromPlate(x1, y1);
      const b = scene.screenFromPlate(x2, y2);
      for (const line of [under.current, over.current]) {
        if (!line) continue;
        line.style.visibility = a && b ? 'visible' : 'hidden';
        if (!a || !b) continue;
        line.setAttribute('x1', a.left.toFixed(1));
        line.setAttribute('y1', a.top.toFixed(1));
        line.setAttribute('x2', b.left.toFixed(1));
        line.setAttribute('y2', b.top.toFixed(1));
      }
    };
    place();
    return scene.onDrawn(place);
  }, [scene, x1, y1, x2, y2]);
  return (
    <svg className="plate-stroke" aria-hidden="true" focusable="false">
      <line ref={under} className="plate-stroke-under" />
      <line ref={over} className="plate-stroke-over" />
    </svg>
  );
}
