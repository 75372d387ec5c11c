// Every call that apprentices may make, made from the contract itself, with the ids of somebody else: a role that fits is not enough.
import { expect, test } from 'vitest';
import { CALL_RULES } from '../../electron/contract/call-roles.ts';
import { VERB_NAMES, type Verb } from '../../electron/contract.ts';
import { cutSampleRun } from '../host/cut-sample-run.ts';
import type { TestPage } from '../host/open-test-host.ts';
import { SAMPLE_DRILL } from '../host/sample-hand.ts';
import { openYardWithRoles } from '../host/yard-with-roles.ts';
import { sampleRequest } from './sample-request.ts';

/** What an apprentice may ask about somebody else, and why that is right. */
const OPEN_BY_DESIGN: Partial<Record<Verb, string>> = {
  signIn: 'an apprentice picks a number',
  choosePerson: 'the same from before roles bind',
};

/** What still comes from the page where a run was begun when somebody else signs in there, and why that is right. */
const STILL_SENT: Partial<Record<Verb, string>> = {
  ...OPEN_BY_DESIGN,
  appendToRun: 'inputs on their way',
  finishRun: 'the end of the run, and that again where the answer was lost',
  getMarking: 'how far the host is with it',
  abandonRun: 'a run that is left',
};

test('an apprentice gets nothing of another one by giving their ids, in any call that apprentices may make', async () => {
  const { apprentice, otherApprentice, ids } = await openYardWithRoles();
  const runId = await cutSampleRun(apprentice, { personId: ids.apprentice });
  expect(await given(otherApprentice, { runId, personId: ids.apprentice }, OPEN_BY_DESIGN)).toEqual([]);
});

test('nor does whoever signs in next on the page where they cut', async () => {
  const { apprentice, ids } = await openYardWithRoles();
  const runId = await cutSampleRun(apprentice, { personId: ids.apprentice });
  await apprentice.ask('signIn', { personId: ids.otherApprentice });
  expect(await given(apprentice, { runId, personId: ids.apprentice }, STILL_SENT)).toEqual([]);
});

/** What is answered on a page of the calls that apprentices may make about somebody else. */
async function given(
  page: TestPage,
  { runId, personId }: { runId: string; personId: string },
  byDesign: Partial<Record<Verb, string>>,
): Promise<string[]> {
  const known = { runId, runIds: [runId], personId, drillId: SAMPLE_DRILL, drillHash: undefined, assignmentId: null };
  const answers: string[] = [];
  for (const verb of VERB_NAMES) {
    const { roles } = CALL_RULES[verb];
    if ((roles !== 'anyone' && !roles.includes('apprentice')) || byDesign[verb] !== undefined) continue;
    const request = sampleRequest(verb, known);
    if (!JSON.stringify(request).includes(runId) && !JSON.stringify(request).includes(personId)) continue;
    const answer = await page.call(verb, request);
    if (answer.ok && JSON.stringify(answer.reply).length > 2)
      answers.push(`${verb}: ${JSON.stringify(answer.reply).slice(0, 200)}`);
  }
  return answers;
}
