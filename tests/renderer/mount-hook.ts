import { act, reconciler } from '@react-three/fiber';
import { createElement, type ReactElement } from 'react';

export interface MountedHook<T> {
  /** What the hook gave when it was last asked. */
  readonly now: T;
  /** Does something that may change the hook's state, and lets all of it come about. */
  does(what: () => void): Promise<void>;
  unmount(): Promise<void>;
}

const CONCURRENT_ROOT = 1;

function Room({ ask }: { ask(): void }): null {
  ask();
  return null;
}

/** A hook in the page's own React, with its effects, and no document: it draws nothing. */
export async function mountHook<T>(use: () => T): Promise<MountedHook<T>> {
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
  let now: T | undefined;
  const ask = () => {
    now = use();
  };
  const fail = (error: unknown) => {
    throw error;
  };
  const root = reconciler.createContainer({} as never, CONCURRENT_ROOT, null, false, null, '', fail, fail, fail, () => undefined);
  const show = (room: ReactElement | null) => act(async () => void reconciler.updateContainer(room, root, null));
  await show(createElement(Room, { ask }));
  return {
    get now() {
      return now as T;
    },
    does: (what) => act(async () => what()),
    unmount: () => show(null),
  };
}
