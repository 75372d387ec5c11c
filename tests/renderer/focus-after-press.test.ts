// A button that is pressed and goes away hands the focus on, or it would fall to the top of the page.
import { isValidElement, type ReactElement } from 'react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { CalibrationRoom } from '../../renderer/calibration/CalibrationRoom.tsx';
import { HandStep } from '../../renderer/calibration/HandStep.tsx';
import { ScreenStep } from '../../renderer/calibration/ScreenStep.tsx';
import { RigCheckRoom } from '../../renderer/rig-check/RigCheckRoom.tsx';
import { Action } from '../../renderer/ui/Action.tsx';
import { neutralChoices } from '../../sim-core/index.ts';
import { shippedDrill } from '../scenarios/drill-files.ts';
import { elementsOf, stand } from './element-tree.ts';
import { type MountedHook, mountHook } from './mount-hook.ts';

let focused: string[];
let room: MountedHook<ReactElement>;

/** Mounts a room whose elements can be focused; what is focused is noted by its name, or by what it shows. */
async function mount(use: () => ReactElement): Promise<void> {
  room = await mountHook(() => {
    const shown = use();
    stand(shown, ({ type, props }) => ({ focus: () => void focused.push(String(props.id ?? props.role ?? type)) }));
    return shown;
  });
}

function propsOf(type: unknown): Record<string, (...told: unknown[]) => void> {
  const found = elementsOf(room.now).find((element) => element.type === type);
  if (!isValidElement<Record<string, (...told: unknown[]) => void>>(found)) throw new Error('It is not shown.');
  return found.props;
}

beforeEach(() => {
  focused = [];
  const kerfhand = new Proxy({}, { get: () => async () => ({ ok: false, error: { code: 'read-only', message: '' } }) });
  vi.stubGlobal('window', { kerfhand, screen: { width: 1280, height: 800 }, devicePixelRatio: 1 });
  vi.stubGlobal('document', { title: '' });
});
afterEach(async () => {
  await room.unmount();
  vi.unstubAllGlobals();
});

test('the screen that fits, or is to be changed, hands the focus to its heading', async () => {
  await mount(CalibrationRoom);
  for (const settled of [true, false]) await room.does(() => propsOf(ScreenStep).onSettle?.(settled));
  expect(focused).toEqual(['hand-screen', 'hand-screen']);
});

test('a scale that is kept hands the focus to the words that say so, and measuring again to its heading', async () => {
  await mount(CalibrationRoom);
  const scale = { device: 'mouse', pxPerMm: 8, spread: 0.01, acceleration: 0, raw: true, restTiltXDeg: 0, restTiltYDeg: 0 };
  await room.does(() => propsOf(HandStep).onKeep?.(scale));
  expect(focused).toEqual(['status']);
  await room.does(() => propsOf(Action).onPress?.());
  expect(focused).toEqual(['status', 'hand-stroke']);
});

test('the rig check is entered at its heading', async () => {
  const drill = shippedDrill('hanger-tab-straight-6');
  const nothing = () => undefined;
  const props = { drill, choices: neutralChoices(drill), units: 'metric', onChange: nothing, onStrike: nothing } as const;
  await mount(() => RigCheckRoom(props));
  expect(focused).toEqual(['h1']);
});
