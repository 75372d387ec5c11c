import type { KeyboardEvent } from 'react';
import { CELL_STEP_MM, Cross, type Dragged, dragging, FAR_STEP_MM } from './Cross.tsx';
import { PlateSpot } from './PlateSpot.tsx';

export interface PointHandleProps extends Dragged {
  label: string;
  sign: string;
  onStep(dxMm: number, dyMm: number): void;
  /** Takes it to the nearest edge of the cut. */
  onEnter(): void;
}

/** A cross that goes anywhere on the plate. */
export function PointHandle(props: PointHandleProps) {
  const { scene, at, label, sign, onStep, onEnter } = props;
  function onKeyDown(event: KeyboardEvent): void {
    const by = event.shiftKey ? FAR_STEP_MM : CELL_STEP_MM;
    if (event.key === 'ArrowRight') onStep(by, 0);
    else if (event.key === 'ArrowLeft') onStep(-by, 0);
    else if (event.key === 'ArrowUp') onStep(0, by);
    else if (event.key === 'ArrowDown') onStep(0, -by);
    else if (event.key === 'Enter') onEnter();
    else return;
    event.preventDefault();
  }
  return (
    <PlateSpot scene={scene} at={at}>
      <button type="button" className="cross" aria-label={label} onKeyDown={onKeyDown} {...dragging(props)}>
        <Cross sign={sign} />
      </button>
    </PlateSpot>
  );
}
