import type { KeyboardEvent } from 'react';
import { Cross, type Dragged, dragging, FAR_STEP_MM } from './Cross.tsx';
import { PlateSpot } from './PlateSpot.tsx';

export interface WayHandleProps extends Dragged {
  label: string;
  says: string;
  sMm: number;
  lengthMm: number;
  stepMm: number;
  onWay(sMm: number): void;
}

/** A cross that goes along the line of the cut: a slider, for whoever does not see it. */
export function WayHandle(props: WayHandleProps) {
  const { scene, at, label, says, sMm, lengthMm, stepMm, onWay } = props;
  function onKeyDown(event: KeyboardEvent): void {
    const ways: Record<string, number> = {
      ArrowRight: sMm + stepMm,
      ArrowUp: sMm + stepMm,
      ArrowLeft: sMm - stepMm,
      ArrowDown: sMm - stepMm,
      PageUp: sMm + FAR_STEP_MM,
      PageDown: sMm - FAR_STEP_MM,
      Home: 0,
      End: lengthMm,
    };
    const way = ways[event.key];
    if (way === undefined) return;
    event.preventDefault();
    onWay(Math.max(0, Math.min(lengthMm, way)));
  }
  return (
    <PlateSpot scene={scene} at={at}>
      <div
        className="cross"
        role="slider"
        tabIndex={0}
        aria-label={label}
        aria-valuemin={0}
        aria-valuemax={Math.round(lengthMm * 100) / 100}
        aria-valuenow={Math.round(sMm * 100) / 100}
        aria-valuetext={says}
        onKeyDown={onKeyDown}
        {...dragging(props)}
      >
        <Cross sign="" />
      </div>
    </PlateSpot>
  );
}
