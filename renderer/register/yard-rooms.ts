import type { PersonRole } from '../../electron/contract.ts';
import type { Route } from '../app/route.ts';
import type { TextKey } from '../text/en.ts';

export interface YardRoom {
  route: Route;
  name: TextKey;
  roles: readonly PersonRole[];
}

/** Rooms that the head of the page leads to, by who may enter; the host holds the same rule for the calls behind them. */
export const YARD_ROOMS: readonly YardRoom[] = [
  { route: { at: 'home' }, name: 'rooms.home', roles: ['instructor', 'assessor'] },
  { route: { at: 'people' }, name: 'rooms.people', roles: ['instructor'] },
  { route: { at: 'assignments' }, name: 'rooms.assignments', roles: ['instructor'] },
  { route: { at: 'class' }, name: 'rooms.class', roles: ['instructor', 'assessor'] },
  { route: { at: 'queue' }, name: 'queue.open-it', roles: ['instructor', 'assessor'] },
  { route: { at: 'moderation', setId: null }, name: 'moderation.title', roles: ['instructor', 'assessor'] },
  { route: { at: 'packs' }, name: 'rooms.packs', roles: ['instructor'] },
  { route: { at: 'backup' }, name: 'rooms.backup', roles: ['instructor'] },
  { route: { at: 'record' }, name: 'rooms.record', roles: ['instructor', 'assessor'] },
];
