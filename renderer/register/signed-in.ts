import { create } from 'zustand';
import type { Person, WhoAmI } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { goTo, type Route } from '../app/route.ts';
import { loadYard, useYard } from '../app/yard-store.ts';
import { firstRoom } from './yard-rooms.ts';

/** Who is signed in at this page; the host holds the roles, the page only shows what can be done. */
export interface SignedIn {
  /** Null until the host has answered. */
  me: WhoAmI | null;
  /** Chosen in a yard with roles: practise as nobody. */
  withoutNumber: boolean;
  /** Who was signed out here because nothing was done for long, and may go on where they were. */
  idle: Person | null;
}

export const useSignedIn = create<SignedIn>(() => ({ me: null, withoutNumber: false, idle: null }));

/** Calls back when somebody else is at the page, or nobody; not where the same person signs in again over the page as it was. */
export function onOtherPerson(changed: () => void): void {
  useSignedIn.subscribe((now, before) => {
    if (now.me?.person?.id !== before.me?.person?.id) changed();
  });
}

async function arrive(me: WhoAmI, at: Route = { at: 'home' }): Promise<void> {
  // What was shown to the one before is gone at once.
  useYard.setState({ chosenId: me.person?.id ?? null, runs: [], runTotal: 0, standings: [] });
  useSignedIn.setState({ me, withoutNumber: false, idle: null });
  goTo(at);
  await loadYard();
}

export async function loadWhoAmI(): Promise<void> {
  useSignedIn.setState({ me: await callHost('whoAmI', {}) });
}

/** Throws HostError: 'wrong-passphrase', or 'wait' with how long. */
export async function signIn(personId: string, passphrase: string | null): Promise<void> {
  const me = await callHost('signIn', { personId, passphrase });
  await arrive(me, firstRoom(me.person?.role));
}

export async function signOut(): Promise<void> {
  await arrive(await callHost('signOut', {}));
}

/** From then on roles bind. Throws HostError 'conflict' where somebody was quicker. */
export async function makeFirstInstructor(passphrase: string): Promise<void> {
  await arrive(await callHost('makeFirstInstructor', { passphrase }));
}

/** The person whose page is shown; null in an open yard, or while nobody is signed in. */
export function useMe(): Person | null {
  return useSignedIn((state) => (state.me?.rolesBind ? state.me.person : null));
}
