import { afterEach, expect, test } from 'vitest';
import type { WhoAmI } from '../../electron/contract.ts';
import { useSignedIn } from '../../renderer/register/signed-in.ts';
import {
  changeDraft,
  draftOf,
  dropDraft,
  missingFrom,
  NO_DRAFT,
  overrule,
  type VerdictDraft,
} from '../../renderer/verdict/verdict-draft.ts';

const WHOLE: VerdictDraft = { decision: 'competent', reasons: 'Even speed, square face.', overruled: [] };

test('a whole verdict on a record that is the same can be signed; every hole keeps it from that, in words', () => {
  expect(missingFrom(WHOLE, 'a passphrase', 'same')).toEqual([]);
  expect(missingFrom(NO_DRAFT, '', 'checking')).toHaveLength(4);
  expect(missingFrom({ ...WHOLE, decision: null }, 'a passphrase', 'same')).toEqual(['Choose one of the two verdicts.']);
  expect(missingFrom({ ...WHOLE, reasons: ' \n ' }, 'a passphrase', 'same')).toEqual(['Write the reasons.']);
  expect(missingFrom(WHOLE, '', 'same')).toEqual(['Give your passphrase.']);
});

test('a record that differs or is damaged cannot be signed for', () => {
  expect(missingFrom(WHOLE, 'a passphrase', 'different')[0]).toContain('Different');
  expect(missingFrom(WHOLE, 'a passphrase', 'damaged')[0]).toContain('Damaged');
});

test('a mark is overruled only with a reason, one at a time, and can be given back', () => {
  const overruled = overrule(WHOLE, 'travel-speed', { mark: 70 });
  expect(overruled).toEqual([{ measureId: 'travel-speed', mark: 70, reason: '' }]);
  const draft = { ...WHOLE, overruled };
  expect(missingFrom(draft, 'a passphrase', 'same')).toEqual(['Write why Travel speed is overruled.']);
  const reasoned = { ...draft, overruled: overrule(draft, 'travel-speed', { reason: 'Wind from the door.' }) };
  expect(reasoned.overruled).toEqual([{ measureId: 'travel-speed', mark: 70, reason: 'Wind from the door.' }]);
  expect(missingFrom(reasoned, 'a passphrase', 'same')).toEqual([]);
  expect(overrule(reasoned, 'travel-speed', null)).toEqual([]);
});

function signIn(id: string | null): void {
  const person = id === null ? null : { id, role: 'assessor' as const, number: 1, name: 'Assessor 01', createdAt: '' };
  useSignedIn.setState({ me: { rolesBind: true, person } as WhoAmI, idle: null });
}

afterEach(() => useSignedIn.setState(useSignedIn.getInitialState()));

test('what an assessor has written is there for the same one after a while away, and never for the next at the page', () => {
  signIn('first');
  changeDraft('run', { reasons: 'Too fast.' });
  changeDraft('run', { decision: 'not-yet-competent' });
  const written = { ...NO_DRAFT, reasons: 'Too fast.', decision: 'not-yet-competent' };
  const { person } = useSignedIn.getState().me as WhoAmI;
  useSignedIn.setState({ idle: person });
  signIn('first');
  expect(draftOf('run')).toEqual(written);
  expect(draftOf('another run')).toEqual(NO_DRAFT);
  signIn('second');
  expect(draftOf('run')).toEqual(NO_DRAFT);
  changeDraft('run', { reasons: 'Even.' });
  signIn(null);
  signIn('second');
  expect(draftOf('run')).toEqual(NO_DRAFT);
  changeDraft('run', { reasons: 'Even.' });
  dropDraft('run');
  expect(draftOf('run')).toEqual(NO_DRAFT);
});
