// What the bench says to somebody who has changed the keys, or who is not at home in English.
import { renderToStaticMarkup } from 'react-dom/server';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { errorWords } from '../../renderer/app/error-words.ts';
import { FIRST_SETTINGS, useYard } from '../../renderer/app/yard-store.ts';
import { FirstCutCard } from '../../renderer/bench/FirstCutCard.tsx';
import { findDrill } from '../../renderer/bench/find-drill.ts';
import { guideSentence } from '../../renderer/bench/guide-sentence.ts';
import { HeldNote } from '../../renderer/bench/HeldNote.tsx';
import { FIRST_HAND_SETTINGS } from '../../renderer/input/first-hand-settings.ts';
import { MuteButton } from '../../renderer/sound/MuteButton.tsx';
import { de } from '../../renderer/text/de.ts';
import { LANGUAGE_IDS, speak } from '../../renderer/text/language.ts';
import { say } from '../../renderer/text/say.ts';
import { Action } from '../../renderer/ui/Action.tsx';
import { shippedDrill } from '../scenarios/drill-files.ts';
import { elementsOf } from './element-tree.ts';
import { mountHook } from './mount-hook.ts';

const DRILL = shippedDrill('hanger-tab-straight-6');
const OWN_KEYS = {
  ...FIRST_HAND_SETTINGS,
  keys: {
    ...{ 'move-left': ['Numpad4'], 'move-right': ['Numpad6'], 'move-away': ['Numpad8'], 'move-near': ['Numpad2'] },
    ...{ lower: ['KeyO'], trigger: ['KeyX'] },
  },
};

beforeEach(() => void vi.stubGlobal('document', { documentElement: {} }));
afterEach(() => {
  speak('en');
  useYard.setState({ settings: FIRST_SETTINGS });
  vi.unstubAllGlobals();
});

test.each(LANGUAGE_IDS)('the first cut and the pace name the keys of today: %s', async (language) => {
  speak(language);
  useYard.setState({ settings: { ...FIRST_SETTINGS, hand: OWN_KEYS } });
  const nothing = () => undefined;
  const props = { drill: DRILL, window: null, units: 'metric', onStart: nothing } as const;
  const card = await mountHook(() => FirstCutCard(props));
  const steps = elementsOf(card.now)
    .filter(({ type }) => type === 'li')
    .map(({ props: { children } }) => String(children));
  const paces = [null, 'keyboard' as const].map(
    (device) => guideSentence('move', DRILL, 'metric', OWN_KEYS, { paced: true, device }).help,
  );
  expect(steps[0]).toContain('6');
  expect(steps[0]).toMatch(/ O[ .]/u);
  expect(steps[1]).toMatch(/ X,/u);
  for (const words of [steps[2], ...paces]) expect(words).toMatch(/8/u);
  expect([...steps, ...paces].join(' ')).not.toMatch(/arrow|Pfeil|Space|Leertaste/u);
  await card.unmount();
});

test.each(LANGUAGE_IDS)(
  'of a press on the plate, which fires, only a hand is told that takes the torch by it: %s',
  (language) => {
    speak(language);
    const words = (oneToOne: boolean, pointerHeld: boolean) => renderToStaticMarkup(HeldNote({ oneToOne, pointerHeld }));
    const click = /click|klick/iu;
    expect(words(true, false)).toMatch(click);
    for (const note of [words(false, false), words(false, true), words(true, true), say('keys.tab')])
      expect(note).not.toMatch(click);
  },
);

test('that a drill is not assigned is said in the language of the page', async () => {
  speak('de');
  vi.stubGlobal('window', { kerfhand: { listDue: async () => ({ ok: true, reply: { due: [] } }) } });
  const refused = (personId: string | null) => findDrill('hanger-tab-straight-6', personId, 'assignment').catch(errorWords);
  expect(await refused(null)).toBe(say('bench.assigned.nobody'));
  expect(await refused('person')).toBe(say('bench.assigned.not-asked'));
});

test('the button for the sound, whose name says the state, is no toggle that says it again', async () => {
  const button = await mountHook(() => MuteButton({}));
  expect(button.now.type).toBe(Action);
  expect(button.now.props['aria-pressed']).toBeUndefined();
  await button.unmount();
});

test('German has one word for the trigger', () => {
  expect(Object.values(de).filter((words) => words.includes('Auslöser'))).toEqual([]);
});
