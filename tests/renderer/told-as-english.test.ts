import { createElement, type ReactElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { PaperJob, Person, QueueRow, VerdictRecord } from '../../electron/contract.ts';
import { errorWords } from '../../renderer/app/error-words.ts';
import { HostError } from '../../renderer/app/host-client.ts';
import { bringFile, onlyFile } from '../../renderer/desk/bring-file.ts';
import type { IncomingRow } from '../../renderer/desk/incoming-drills.ts';
import { hereWords } from '../../renderer/desk/incoming-words.ts';
import { splitAtEnglish } from '../../renderer/text/in-english.ts';
import { speak } from '../../renderer/text/language.ts';
import { say } from '../../renderer/text/say.ts';
import { GivenVerdict } from '../../renderer/verdict/GivenVerdict.tsx';
import { QueueTable } from '../../renderer/verdict/QueueTable.tsx';
import { TrustSign } from '../../renderer/verdict/TrustSign.tsx';
import { foundBy, type Trust } from '../../renderer/verdict/use-trust.ts';
import { DRILL_FORMAT } from '../../sim-core/index.ts';

// On paper a table has all of its rows.
vi.mock('../../renderer/register/use-printing.ts', () => ({ usePrinting: () => true }));

const SENTENCE = 'The signature does not fit the key.';

/** What is told as English in a page that is in German. */
function toldAsEnglish(element: ReactElement): string[] {
  return [...renderToStaticMarkup(element).matchAll(/<span lang="en">([^<]*)<\/span>/g)].map(([, words = '']) => words);
}

beforeEach(() => speak('de'));
afterEach(() => speak('en'));

test('why a verdict does not hold is told as the English that it is', () => {
  const given = {
    decision: 'competent',
    reasons: 'Gleichmäßig.',
    overruled: [],
    marks: [],
    assessor: 'Assessor 01',
    at: '2031-03-20T10:59:00.000Z',
    keyId: '0123456789abcdef',
    check: 'signature',
    checkSentence: SENTENCE,
  } as unknown as VerdictRecord;
  expect(toldAsEnglish(createElement(GivenVerdict, { given }))).toEqual([SENTENCE]);
});

test('why a record could not be checked is told as English where the host says it, and once', () => {
  const nothing = () => undefined;
  const signOf = (found: Pick<Trust, 'state' | 'reason' | 'done' | 'total'>) =>
    toldAsEnglish(createElement(TrustSign, { trust: { ...found, stop: nothing, again: nothing } }));
  const over = { state: 'failed', check: null, problem: SENTENCE, done: 0, total: 0 } as PaperJob;
  expect(signOf(foundBy(over))).toEqual([SENTENCE]);
  expect(signOf(foundBy({ ...over, check: { trust: 'different', sentence: SENTENCE } } as PaperJob))).toEqual([SENTENCE]);
  // The page's own German is not told as English along with it.
  const reason = errorWords(new HostError('not-found', SENTENCE));
  expect(signOf({ state: 'unknown', reason, done: 0, total: 0 })).toEqual([SENTENCE]);
});

test('why a drill of a pack cannot be taken in is marked as English', () => {
  const row = { kind: 'wrong', reason: SENTENCE, here: null } as IncomingRow;
  expect(splitAtEnglish(hereWords(row))).toEqual(['', SENTENCE, '']);
});

test('why a file is not taken is told in the German that it is', async () => {
  const named = (format: string) => JSON.stringify({ format });
  const role = (role: Person['role']) => ({ role }) as Person;
  const words = await Promise.all([
    bringFile(new File([named('kerfhand-run')], 'a.kerfhand-run'), role('apprentice')).catch(errorWords),
    bringFile(new File([named(DRILL_FORMAT)], 'b.json'), role('assessor')).catch(errorWords),
    bringFile(new File([''], 'c.json'), null).catch(errorWords),
    Promise.resolve<File[]>([]).then(onlyFile).catch(errorWords),
  ]);
  expect(words).toEqual([
    say('bring.not-yours.run', { name: 'a.kerfhand-run' }),
    say('bring.not-yours.drill', { name: 'b.json' }),
    say('bring.empty', { name: 'c.json' }),
    say('bring.one', { count: 0 }),
  ]);
});

test('whoever decided a run is called as in the language of the page', () => {
  const run = { id: 'run', personName: 'Apprentice 01', drillTitle: 'Tab', beganAt: '2031-03-20T10:59:00.000Z', score: 80 };
  const rows = [{ run, weakestMeasure: null, decidedBy: 'Assessor 01' } as unknown as QueueRow];
  const markup = renderToStaticMarkup(createElement(QueueTable, { rows, total: 1, onNearEnd: () => undefined }));
  expect(markup).toContain(`${say('role.assessor')} 01`);
  expect(markup).not.toContain('Assessor 01');
});
