import { newConnection } from '../../electron/host/caller.ts';
import type { Host } from '../../electron/host/host.ts';
import { type Ask, asking } from '../host/asking.ts';
import type { DemoClock } from './demo-clock.ts';

/** Somebody at a page of their own. */
export interface Someone {
  id: string;
  ask: Ask;
}

/** Nobody yet: signs in, or is made the first instructor. */
export function someone(host: Host): Someone {
  return { id: '', ask: asking(host, newConnection()) };
}

/** What happens in the yard at some moment; done in the order of time. */
export interface YardEvent {
  atMs: number;
  happen(): Promise<void>;
}

/** Lets what is planned happen, with the clock at each moment; what happens may plan more for later. */
export async function liveThrough(
  clock: DemoClock,
  events: YardEvent[],
  onEvent: (done: number, left: number) => void,
): Promise<void> {
  for (let done = 1; events.length > 0; done++) {
    let first = 0;
    for (const [index, event] of events.entries()) if (event.atMs < (events[first]?.atMs ?? 0)) first = index;
    const [event] = events.splice(first, 1);
    if (!event) return;
    clock.set(Math.max(clock.now(), event.atMs));
    await event.happen();
    onEvent(done, events.length);
  }
}
