// Answers of the host that come in another order than they were asked for.
import { SliderThumb } from 'react-aria-components';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { changeSettings, choosePerson, FIRST_SETTINGS, loadRuns, loadYard, useYard } from '../../renderer/app/yard-store.ts';
import { Gauge, type GaugeProps } from '../../renderer/ui/Gauge.tsx';
import { elementsOf } from './element-tree.ts';
import { mountHook } from './mount-hook.ts';

type Question = { verb: string; request: Record<string, unknown>; answer(reply: unknown): void };

let asked: Question[];
beforeEach(() => {
  asked = [];
  const host = (verb: string) => (request: Record<string, unknown>) =>
    new Promise((resolve) => {
      asked.push({ verb, request, answer: (reply) => resolve({ ok: true, reply }) });
    });
  vi.stubGlobal('window', { kerfhand: new Proxy({}, { get: (_, verb: string) => host(verb) }) });
  useYard.setState({ session: null, settings: FIRST_SETTINGS, chosenId: null, runs: [], runTotal: 0 });
});
afterEach(() => vi.unstubAllGlobals());

const questions = (verb: string) => asked.filter((question) => question.verb === verb);
/** Answers what was asked for runs and standings, the nth time. */
function answerRuns(n: number, total: number): void {
  questions('listRuns')[n]?.answer({ runs: [], total });
  questions('listStandings')[n]?.answer({ standings: [] });
}

test('an answer to an older change of the settings does not take back a newer one', async () => {
  const changes = [changeSettings({ soundLevel: 0.5 }), changeSettings({ soundLevel: 0.8 })];
  const [older, newer] = questions('setSettings');
  older?.answer({ ...FIRST_SETTINGS, soundLevel: 0.5 });
  await changes[0];
  expect(useYard.getState().settings.soundLevel).toBe(0.8);
  newer?.answer({ ...FIRST_SETTINGS, soundLevel: 0.8, yardName: 'as the host has it' });
  await changes[1];
  expect(useYard.getState().settings).toMatchObject({ soundLevel: 0.8, yardName: 'as the host has it' });
});

test('runs of somebody who is no longer chosen are not shown, nor an older answer over a newer one', async () => {
  const [first, second] = [loadRuns(), loadRuns()];
  answerRuns(1, 2);
  await second;
  answerRuns(0, 1);
  await first;
  expect(useYard.getState().runTotal).toBe(2);
  const third = loadRuns();
  useYard.setState({ chosenId: 'somebody' });
  answerRuns(2, 3);
  await third;
  expect(useYard.getState().runTotal).toBe(2);
});

test('of two who are chosen one after the other the last one is, whichever answer comes first', async () => {
  void choosePerson('one');
  void choosePerson('two');
  const [one, two] = questions('choosePerson');
  two?.answer({ personId: 'two' });
  await expect.poll(() => useYard.getState().chosenId).toBe('two');
  one?.answer({ personId: 'one' });
  await new Promise((resolve) => setTimeout(resolve, 5));
  expect(useYard.getState().chosenId).toBe('two');
});

test('what is set or chosen while the yard is loaded is not taken back by what it was before', async () => {
  const answerYard = (n: number, soundLevel: number) => {
    questions('getSession')[n]?.answer({ settings: { ...FIRST_SETTINGS, soundLevel } });
    questions('listPeople')[n]?.answer({ people: [], chosenId: 'before' });
    questions('listDrills')[n]?.answer({ drills: [] });
  };
  const now = () => [useYard.getState().settings.soundLevel, useYard.getState().chosenId];
  void loadYard();
  void changeSettings({ soundLevel: 0.8 });
  void choosePerson('now');
  questions('choosePerson')[0]?.answer({ personId: 'now' });
  await expect.poll(now).toEqual([0.8, 'now']);
  answerYard(0, 0.1);
  await expect.poll(() => useYard.getState().session).not.toBeNull();
  expect(now()).toEqual([0.8, 'now']);
  // Where nothing is set meanwhile the host's word counts.
  void loadYard();
  answerYard(1, 0.2);
  await expect.poll(now).toEqual([0.2, 'before']);
});

test('a gauge that help software sets, and nobody lets go, tells its value at once', async () => {
  const told: number[] = [];
  const input = Object.assign(new EventTarget(), { setAttribute: () => undefined });
  const props: GaugeProps = {
    ...{ label: 'Dead zone', value: 0.1, low: 0, high: 1, step: 0.1, markEvery: 0.5, words: String, mark: String },
    ...{ whenLetGo: true, onChange: (value) => told.push(value) },
  };
  const gauge = await mountHook(() => {
    const shown = Gauge(props);
    const thumb = elementsOf(shown).find(({ type }) => type === SliderThumb);
    Object.assign(thumb?.props.inputRef as object, { current: input });
    return shown.props;
  });
  const set = (value: number) => {
    input.dispatchEvent(new Event('input'));
    gauge.now.onChange(value);
  };
  await gauge.does(() => {
    set(0.3);
    input.dispatchEvent(new Event('change'));
  });
  await gauge.does(() => set(0.4));
  expect(told.splice(0)).toEqual([0.3, 0.4]);
  // What it shows is again what is kept.
  expect(gauge.now.value).toBe(0.1);
  await gauge.does(() => gauge.now.onChange(0.5));
  expect([gauge.now.value, told]).toEqual([0.5, []]);
  await gauge.does(() => gauge.now.onChangeEnd(0.5));
  expect([gauge.now.value, told]).toEqual([0.1, [0.5]]);
  await gauge.unmount();
});

test('a gauge whose value is kept tells it once, when its rider is let go', async () => {
  const told: number[] = [];
  const props: GaugeProps = {
    ...{ label: 'Dead zone', value: 0.1, low: 0, high: 1, step: 0.1, markEvery: 0.5, words: String, mark: String },
    onChange: (value) => told.push(value),
  };
  const move = async (more: Partial<GaugeProps>) => {
    const gauge = await mountHook(() => Gauge({ ...props, ...more }).props);
    for (const value of [0.2, 0.3]) await gauge.does(() => gauge.now.onChange(value));
    expect(gauge.now.value).toBe(more.whenLetGo ? 0.3 : 0.1);
    await gauge.does(() => gauge.now.onChangeEnd(0.3));
    return told.splice(0);
  };
  expect(await move({ whenLetGo: true })).toEqual([0.3]);
  expect(await move({})).toEqual([0.2, 0.3]);
});
