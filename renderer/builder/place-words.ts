import { say } from '../text/say.ts';
import { quantity, type UnitSystem } from '../ui/units.ts';
import type { PlanPlace } from './plan-places.ts';

/** What a place of the plan is called. */
export function placeName(place: PlanPlace): string {
  return say(`builder.place.${place.kind}`, { number: place.number });
}

/** Its name and where it is. */
export function placeWords(place: PlanPlace, units: UnitSystem): string {
  return say('builder.place.words', {
    name: placeName(place),
    x: quantity(place.xMm, 'mm', units),
    y: quantity(place.yMm, 'mm', units),
  });
}
