import { Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import type { PersonRole } from '../../electron/contract.ts';
import { hashFromRoute, routeFromHash, useHash } from '../app/route.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { roomOf, YARD_ROOMS, type YardRoom } from './yard-rooms.ts';

/** More than these do not fit into one row of a small window: the seldom entered ones go behind one entry. */
const FEW_ROOMS = 6;

/** The rooms that are open to a role, in one row. */
export function RoomLinks({ role }: { role: PersonRole }) {
  const here = roomOf(routeFromHash(useHash()));
  const rooms = YARD_ROOMS.filter((room) => room.roles.includes(role));
  if (rooms.length === 0) return <p className="soft small tagline">{say('app.tagline')}</p>;
  const gathered = rooms.length > FEW_ROOMS ? rooms.filter((room) => room.office) : [];
  return (
    <nav className="yard-rooms" aria-label={say('rooms.title')}>
      <ul>
        {rooms
          .filter((room) => !gathered.includes(room))
          .map(({ route, name }) => (
            <li key={route.at}>
              <a className="yard-room" href={hashFromRoute(route)} aria-current={here === route.at ? 'page' : undefined}>
                {say(name)}
              </a>
            </li>
          ))}
        {gathered.length > 0 && (
          <li>
            <Office rooms={gathered} isHere={gathered.some(({ route }) => route.at === here)} />
          </li>
        )}
      </ul>
    </nav>
  );
}

function Office({ rooms, isHere }: { rooms: readonly YardRoom[]; isHere: boolean }) {
  return (
    <MenuTrigger>
      <Action kind="quiet" className="yard-room" aria-current={isHere ? 'page' : undefined}>
        {say('rooms.office')}
        <svg viewBox="0 0 12 8" aria-hidden="true" focusable="false">
          <path fill="currentColor" d="M1 1h10L6 7z" />
        </svg>
      </Action>
      <Popover className="popover pick-popover" placement="bottom start">
        <Menu className="pick-list" aria-label={say('rooms.office')}>
          {rooms.map(({ route, name }) => (
            <MenuItem key={route.at} id={route.at} className="pick-option" href={hashFromRoute(route)}>
              {say(name)}
            </MenuItem>
          ))}
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}
