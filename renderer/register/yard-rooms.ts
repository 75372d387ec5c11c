import type { PersonRole } from '../../electron/contract.ts';
import type { Route } from '../app/route.ts';
import type { TextKey } from '../text/en.ts';

export interface YardRoom {
  route: Route;
  name: TextKey;
  roles: readonly PersonRole[];
  /** Seldom entered: behind one entry with its like, for whoever has many rooms. */
  office?: true;
}

/** Rooms that the head of the page leads to, by who may enter; the host holds the same rule for the calls behind them. */
export const YARD_ROOMS: readonly YardRoom[] = [
  { route: { at: 'class' }, name: 'rooms.class', roles: ['instructor', 'assessor'] },
  { route: { at: 'assignments' }, name: 'rooms.assignments', roles: ['instructor'] },
  { route: { at: 'queue' }, name: 'queue.open-it', roles: ['instructor', 'assessor'] },
  { route: { at: 'moderation', setId: null }, name: 'moderation.title', roles: ['instructor', 'assessor'] },
  { route: { at: 'home' }, name: 'rooms.home', roles: ['instructor', 'assessor'] },
  { route: { at: 'people' }, name: 'rooms.people', roles: ['instructor'] },
  { route: { at: 'packs' }, name: 'rooms.packs', roles: ['instructor'], office: true },
  { route: { at: 'backup' }, name: 'rooms.backup', roles: ['instructor'], office: true },
  { route: { at: 'record' }, name: 'rooms.record', roles: ['instructor', 'assessor'], office: true },
];

/** The room that a page belongs to, which may be one behind it. */
export function roomOf({ at }: Route): Route['at'] {
  return at === 'assign' ? 'assignments' : at;
}

/** What somebody comes to first: an instructor to the class, an assessor to what waits; everybody else to the bench. */
export function firstRoom(role: PersonRole | undefined): Route {
  if (role === 'instructor') return { at: 'class' };
  return role === 'assessor' ? { at: 'queue' } : { at: 'home' };
}
