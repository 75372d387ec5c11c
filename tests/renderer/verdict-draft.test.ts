import { expect, test } from 'vitest';
import { missingFrom, NO_DRAFT, overrule, type VerdictDraft } from '../../renderer/verdict/verdict-draft.ts';

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
