// Every call that apprentices may make, made from the contract itself, with the ids of somebody else: a role that fits is not enough.
import { expect, test } from 'vitest';
import { CALL_RULES } from '../../electron/contract/call-roles.ts';
import { VERB_NAMES, type Verb } from '../../electron/contract.ts';
import { cutSampleRun } from '../host/cut-sample-run.ts';
import { SAMPLE_DRILL } from '../host/sample-hand.ts';
import { openYardWithRoles } from '../host/yard-with-roles.ts';
import { sampleRequest } from './sample-request.ts';

/** What an apprentice may ask about somebody else, and why that is right. */
const OPEN_BY_DESIGN: Partial<Record<Verb, string>> = {
  signIn: 'an apprentice picks a number',
  choosePerson: 'the same from before roles bind',
};

test('an apprentice gets nothing of another one by giving their ids, in any call that apprentices may make', {
  timeout: 120_000,
}, async () => {
  const { apprentice, otherApprentice, ids } = await openYardWithRoles();
  const runId = await cutSampleRun(apprentice, { personId: ids.apprentice });
  const known = {
    runId,
    runIds: [runId],
    personId: ids.apprentice,
    drillId: SAMPLE_DRILL,
    drillHash: undefined,
    assignmentId: null,
  };
  const given: string[] = [];
  for (const verb of VERB_NAMES) {
    const { roles } = CALL_RULES[verb];
    if ((roles !== 'anyone' && !roles.includes('apprentice')) || OPEN_BY_DESIGN[verb] !== undefined) continue;
    const request = sampleRequest(verb, known);
    if (!JSON.stringify(request).includes(runId) && !JSON.stringify(request).includes(ids.apprentice)) continue;
    const answer = await otherApprentice.call(verb, request);
    if (answer.ok && JSON.stringify(answer.reply).length > 2)
      given.push(`${verb}: ${JSON.stringify(answer.reply).slice(0, 200)}`);
  }
  expect(given).toEqual([]);
});
