import type { KeyboardEvent, PointerEvent } from 'react';
import { say } from '../text/say.ts';
import { useUnits } from '../ui/use-units.ts';
import { edit, letGo, useBuilder } from './builder-store.ts';
import type { PlanPoint } from './path-joints.ts';
import { placeWords } from './place-words.ts';
import { movePlace, type PlanPlace, removePlace } from './plan-places.ts';

/** Steps of the arrow keys, mm. */
export const STEP_MM = 1;
export const LONG_STEP_MM = 10;
export const FINE_STEP_MM = 0.1;

/** Shapes by which the kinds are told apart, about 0,0 with a reach of 1. */
const SHAPES: Record<PlanPlace['kind'], string> = {
  start: 'M-.7-1 1 0-.7 1z',
  corner: 'M-.8-.8h1.6v1.6h-1.6z',
  end: 'M-.35-1h.7v2h-.7z',
  centre: 'M-.2-1h.4v.8h.8v.4h-.8v.8h-.4v-.8h-.8v-.4h.8z',
  support: 'M0 1 1-.8h-2z',
  clamp: 'M-1-1h2v.6h-1.4v.8h1.4v.6h-2z',
  opening: 'M0-1 1 0 0 1-1 0z',
};

const ARROWS: Record<string, readonly [number, number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

export interface PlanHandleProps {
  place: PlanPlace;
  /** Where it is drawn: what lies far beside the plate stands at the rim of the picture. */
  shownAt: PlanPoint;
  /** Half of what can be hit, mm. */
  reachMm: number;
  /** Place on the plate under a pointer, to whole millimetres. */
  plateAt(event: PointerEvent): { xMm: number; yMm: number };
}

/** The keyboard stays on the plan: at the place that took over the name of the one taken away, or at the last one. */
export function focusNear(id: string): void {
  const places = [...document.querySelectorAll<SVGElement>('.plan-place')];
  (places.find((one) => one.dataset.place === id) ?? places.at(-1))?.focus();
}

/** A place on the plan: pulled by a pointer, or moved by the arrow keys while it has the focus. */
export function PlanHandle({ place, shownAt, reachMm, plateAt }: PlanHandleProps) {
  const units = useUnits();
  const held = useBuilder((state) => state.place === place.id);

  function onKeyDown(event: KeyboardEvent): void {
    const arrow = ARROWS[event.key];
    if (arrow) {
      const step = event.shiftKey ? LONG_STEP_MM : event.altKey ? FINE_STEP_MM : STEP_MM;
      const to = { xMm: place.xMm + step * arrow[0], yMm: place.yMm + step * arrow[1] };
      edit((drill) => movePlace(drill, place.id, to), `place ${place.id}`);
    } else if (event.key === 'Delete' || event.key === 'Backspace') {
      edit((drill) => removePlace(drill, place.id));
      requestAnimationFrame(() => focusNear(place.id));
    } else return;
    event.preventDefault();
  }

  return (
    // biome-ignore lint/a11y/useSemanticElements: a button of HTML cannot stand in a drawing
    <g
      role="button"
      tabIndex={0}
      className={`plan-place plan-${place.kind}${shownAt === place ? '' : ' plan-beside'}${held ? ' plan-held' : ''}`}
      data-place={place.id}
      aria-label={placeWords(place, units)}
      aria-roledescription={say('builder.plan.place')}
      aria-pressed={held}
      aria-describedby="plan-keys"
      transform={`translate(${shownAt.xMm} ${-shownAt.yMm})`}
      onFocus={() => useBuilder.setState({ place: place.id })}
      onBlur={letGo}
      onKeyDown={onKeyDown}
      onPointerDown={(event) => {
        event.currentTarget.focus();
        event.currentTarget.setPointerCapture(event.pointerId);
        event.preventDefault();
      }}
      onPointerMove={(event) => {
        if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
        const to = plateAt(event);
        edit((drill) => movePlace(drill, place.id, to), `place ${place.id}`);
      }}
      onPointerUp={letGo}
    >
      <circle className="plan-hit" r={reachMm} />
      <path className="plan-shape" d={SHAPES[place.kind]} transform={`scale(${reachMm * 0.62} ${-reachMm * 0.62})`} />
    </g>
  );
}
