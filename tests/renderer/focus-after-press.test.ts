// A button that is pressed and goes away hands the focus on, or it would fall to the top of the page.
import { isValidElement, type ReactElement } from 'react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Person, RunSummary } from '../../electron/contract.ts';
import { CalibrationRoom } from '../../renderer/calibration/CalibrationRoom.tsx';
import { HandStep } from '../../renderer/calibration/HandStep.tsx';
import { ScreenStep } from '../../renderer/calibration/ScreenStep.tsx';
import { OlderRuns } from '../../renderer/register/OlderRuns.tsx';
import { OwnPage } from '../../renderer/register/OwnPage.tsx';
import { RunTable } from '../../renderer/register/RunTable.tsx';
import { RigCheckRoom } from '../../renderer/rig-check/RigCheckRoom.tsx';
import { Action } from '../../renderer/ui/Action.tsx';
import { FocusedStatus } from '../../renderer/ui/FocusedStatus.tsx';
import { neutralChoices } from '../../sim-core/index.ts';
import { shippedDrill } from '../scenarios/drill-files.ts';
import { elementsOf, stand } from './element-tree.ts';
import { type MountedHook, mountHook } from './mount-hook.ts';

// Both ask the browser for something as soon as they are loaded.
vi.mock('../../renderer/app/theme.ts', () => ({ useShownTheme: () => 'light' }));
vi.mock('../../renderer/register/use-printing.ts', () => ({ usePrinting: () => false }));

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

const PERSON: Person = { id: 'person', role: 'apprentice', number: 1, name: 'Apprentice 01', createdAt: '' };
const attempt = (id: string, submittedAt: string | null) =>
  ({
    id,
    state: 'finished',
    passed: null,
    score: null,
    tickCount: 240,
    assessment: { submittedAt, decision: null },
  }) as RunSummary;

/** The own page with two attempts listed of `total`, on a host that takes what is handed in. */
async function mountOwnPage(total: number): Promise<void> {
  const handedIn = new Set<string>();
  const replies: Record<string, (request: { runId: string; offset?: number; runIds: string[] }) => unknown> = {
    listDue: () => ({ due: [] }),
    getProgress: () => ({ techniques: [], measures: [], drills: [] }),
    listRuns: ({ offset = 0 }) => {
      const runs = ['one', 'two', 'three'].slice(offset, offset + 2).slice(0, total - offset);
      return { runs: runs.map((id) => attempt(id, handedIn.has(id) ? 'now' : null)), total };
    },
    checkHandIn: ({ runIds }) => ({ reasons: runIds.map((runId) => ({ runId, reason: null })) }),
    submitRun: ({ runId }) => void handedIn.add(runId),
    listStandings: () => ({ standings: [] }),
  };
  const host = (verb: string) => async (request: never) => ({ ok: true, reply: replies[verb]?.(request) ?? {} });
  vi.stubGlobal('window', { kerfhand: new Proxy({}, { get: (_, verb: string) => host(verb) }) });
  await mount(() => OwnPage({ person: PERSON }));
  await expect.poll(() => propsOf(RunTable)).toBeDefined();
}

const shows = (type: unknown) => elementsOf(room.now).filter((element) => element.type === type);

test('a run that is handed in from the own page leaves the focus with words that say so, and so does the next', async () => {
  await mountOwnPage(2);
  expect(shows(FocusedStatus)).toEqual([]);
  const keys: unknown[] = [];
  for (const id of ['one', 'two']) {
    await room.does(() => propsOf(RunTable).onHandIn?.(attempt(id, null)));
    await expect.poll(() => (propsOf(RunTable).mayHandIn as unknown as Set<string>).has(id)).toBe(false);
    keys.push(...shows(FocusedStatus).map(({ key }) => key));
  }
  // It takes the focus when it comes: another key is another line.
  expect(keys).toEqual(['one', 'two']);
});

test('the button for older runs, which goes when the last have come, stands in a part of the page that takes the focus', async () => {
  await mountOwnPage(3);
  const part = shows('section').find(({ props }) => elementsOf(props.children).some(({ type }) => type === OlderRuns));
  expect(part?.props.tabIndex).toBe(-1);
  await room.does(() => propsOf(OlderRuns).onFetch?.());
  await expect.poll(() => shows(OlderRuns)).toEqual([]);
});

test('the line of older runs hands on the focus that is in it, and none that is elsewhere', async () => {
  const button = {};
  for (const activeElement of [button, {}]) {
    vi.stubGlobal('document', { title: '', activeElement });
    const closest = (selector: string) => ({ focus: () => void focused.push(selector) });
    room = await mountHook(() => {
      const shown = OlderRuns({ shown: 2, all: 3, onFetch: async () => undefined });
      stand(shown, () => ({ contains: (element: unknown) => element === button, parentElement: { closest } }));
      return shown;
    });
    await room.unmount();
  }
  expect(focused).toEqual(['[tabindex="-1"]']);
});
