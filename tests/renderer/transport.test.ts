import { SliderThumb } from 'react-aria-components';
import { afterEach, expect, test } from 'vitest';
import { Transport } from '../../renderer/review/Transport.tsx';
import type { Replay } from '../../renderer/review/use-replay.ts';
import { elementsOf } from './element-tree.ts';
import { type MountedHook, mountHook } from './mount-hook.ts';

let transport: MountedHook<unknown> | null = null;
afterEach(() => transport?.unmount());

test('the slider of a replay tells the moment as it is shown, not in ticks', async () => {
  const told: string[][] = [];
  const input = { setAttribute: (...attribute: string[]) => void told.push(attribute) };
  const replay = { tick: 4812, ready: true, playing: 0, rate: 1 } as Replay;
  transport = await mountHook(() => {
    const shown = Transport({ replay, tickCount: 20_000, marks: [], pins: [] });
    const thumb = elementsOf(shown).find(({ type }) => type === SliderThumb);
    (thumb?.props.inputRef as { current: unknown }).current = input;
    return shown;
  });
  expect(told).toEqual([['aria-valuetext', '0:20.1']]);
});
