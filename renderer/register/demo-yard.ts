import { create } from 'zustand';
import type { DemoYard } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { goTo } from '../app/route.ts';
import { loadYard, useYard } from '../app/yard-store.ts';
import { loadWhoAmI, useSignedIn } from './signed-in.ts';

export interface DemoYardState {
  /** Null until the host has answered. */
  demo: DemoYard | null;
  /** Goes up with every change of yard: what was shown of the one before is taken down and made anew. */
  visit: number;
}

export const useDemoYard = create<DemoYardState>(() => ({ demo: null, visit: 0 }));

export async function loadDemoYard(): Promise<void> {
  useDemoYard.setState({ demo: await callHost('getDemoYard', {}) });
}

/** Throws HostError with the host's sentence; the yard is then the one it was. */
export async function switchYard(call: 'openDemoYard' | 'leaveDemoYard' | 'removeDemoYard'): Promise<void> {
  const before = useDemoYard.getState().demo?.state;
  // A bench lets go of its run before the yard it belongs to is gone.
  if (before === 'open') goTo({ at: 'home' });
  const demo = await callHost(call, {});
  const isOther = (before === 'open') !== (demo.state === 'open');
  if (!isOther) {
    useDemoYard.setState({ demo });
    return;
  }
  useSignedIn.setState({ me: null, withoutNumber: false });
  useYard.setState({
    session: null,
    people: [],
    chosenId: null,
    drills: [],
    standings: [],
    runs: [],
    runTotal: 0,
    trouble: null,
  });
  useDemoYard.setState(({ visit }) => ({ demo, visit: visit + 1 }));
  goTo({ at: 'home' });
  await Promise.all([loadYard(), loadWhoAmI()]);
}
