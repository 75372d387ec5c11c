import { afterEach, expect, test } from 'vitest';
import type { WhoAmI } from '../../electron/contract.ts';
import { useSignedIn } from '../../renderer/register/signed-in.ts';
import { handOver, type ReviewedRun, takeFreshRun, UNKEPT_RUN_ID } from '../../renderer/review/fresh-run.ts';

const KEPT = { id: 'run', notKept: null } as ReviewedRun;
const UNKEPT = { id: UNKEPT_RUN_ID, notKept: { reason: 'The disk is full.', drillText: '' } } as ReviewedRun;

function signIn(id: string): WhoAmI['person'] {
  const person = { id, role: 'apprentice' as const, number: 1, name: 'Apprentice 01', createdAt: '' };
  useSignedIn.setState({ me: { rolesBind: true, person } as WhoAmI, idle: null });
  return person;
}

afterEach(() => useSignedIn.setState(useSignedIn.getInitialState()));

test('a run that is kept is handed over once, one that is not as often as it is looked at', () => {
  handOver(KEPT);
  expect([takeFreshRun('another'), takeFreshRun('run'), takeFreshRun('run')]).toEqual([null, KEPT, null]);
  handOver(UNKEPT);
  expect([takeFreshRun(UNKEPT_RUN_ID), takeFreshRun(UNKEPT_RUN_ID)]).toEqual([UNKEPT, UNKEPT]);
});

test('a run that is not kept outlasts a while away, and is never there for the next at the page', () => {
  const person = signIn('first');
  handOver(UNKEPT);
  useSignedIn.setState({ idle: person });
  signIn('first');
  expect(takeFreshRun(UNKEPT_RUN_ID)).toBe(UNKEPT);
  signIn('second');
  expect(takeFreshRun(UNKEPT_RUN_ID)).toBeNull();
});
