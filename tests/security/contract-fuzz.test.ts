// Whatever the page (or whoever took its place) sends: the host answers in one of the foreseen ways, never with an internal error,
// and a request that the contract does not take changes nothing. Requests are made from the contract itself, so a new verb is
// tried without a change here. The test host fails the test on any line in its fault log.
import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { VERB_NAMES, VERBS, type Verb } from '../../electron/contract.ts';
import { openTestHost, type TestHost } from '../host/open-test-host.ts';
import { sampleBegin, sampleChunk } from '../host/sample-hand.ts';
import { placesIn, sampleRequest, withValueAt } from './sample-request.ts';

const FORESEEN = ['bad-request', 'not-found', 'conflict', 'missing-chunks', 'bad-file', 'newer-version'];

const deep = JSON.parse(`${'['.repeat(5000)}${']'.repeat(5000)}`);
const HOSTILE: [string, unknown][] = [
  ['undefined', undefined],
  ['null', null],
  ['minus one', -1],
  ['a fraction', 0.5],
  ['a huge number', 1e308],
  ['NaN', Number.NaN],
  ['infinity', Number.NEGATIVE_INFINITY],
  ['a big integer', 10n],
  ['empty text', ''],
  ['long text', 'x'.repeat(2_000_000)],
  ['SQL', "'; DROP TABLE runs; --"],
  ['a path', '../../../etc/passwd'],
  ['a lone surrogate and a NUL', '\ud800\u0000'],
  ['true', true],
  ['a list', []],
  ['a long list', new Array(200_000).fill(0)],
  ['an object', {}],
  ['a poisoned object', JSON.parse('{"__proto__": {"polluted": true}, "constructor": {"prototype": {"polluted": true}}}')],
  ['a deep list', deep],
  ['bytes', new Uint8Array(16)],
  ['a date', new Date(0)],
  ['a function', () => 1],
];

interface Known {
  host: TestHost;
  values: Record<string, unknown>;
}

async function openKnownHost(): Promise<Known> {
  const host = await openTestHost();
  const person = await host.ask('createPerson', { role: 'apprentice' });
  const { runId, drillHash } = await host.ask('beginRun', sampleBegin(person.id));
  await host.ask('appendToRun', sampleChunk(runId, 0));
  return { host, values: { personId: person.id, runId, drillId: sampleBegin().drillId, drillHash } };
}

/** What the records hold, as far as the contract shows it. */
async function contents(host: TestHost): Promise<string> {
  const { runs } = await host.ask('listRuns', {});
  return JSON.stringify([
    runs,
    await host.ask('listPeople', {}),
    await host.ask('listDrills', {}),
    await host.ask('getSettings', {}),
  ]);
}

async function expectForeseen(host: TestHost, verb: Verb, payload: unknown, what: string): Promise<void> {
  const taken = VERBS[verb].request.safeParse(payload).success;
  const answer = await host.call(verb, payload);
  if (answer.ok) expect(taken, `${verb} answered ${what}, which the contract does not take`).toBe(true);
  else {
    expect(taken ? FORESEEN : ['bad-request'], `${verb} with ${what}: ${answer.error.message}`).toContain(answer.error.code);
    expect(answer.error.message.length, `${verb} with ${what}`).toBeLessThan(600);
    expect(answer.error.message).toMatch(/^[A-Z][^\n]*\.$/);
  }
}

beforeAll(() => {
  // A verb without a request of its own would make this whole file pass for nothing.
  for (const verb of VERB_NAMES) expect(placesIn(sampleRequest(verb)).length).toBeGreaterThan(0);
});

test('every field of every request, replaced by something hostile, removed, or joined by another', {
  timeout: 120_000,
}, async () => {
  const { host, values } = await openKnownHost();
  let tried = 0;
  for (const verb of VERB_NAMES) {
    const good = sampleRequest(verb, values);
    for (const place of placesIn(good)) {
      for (const [what, value] of HOSTILE) {
        await expectForeseen(host, verb, withValueAt(good, place, value), `${what} at ${place.join('.') || 'the top'}`);
        tried++;
      }
    }
    const { ok } = await host.call(verb, { ...(good as object), extra: 1 });
    expect([verb, ok]).toEqual([verb, false]);
  }
  expect(tried).toBeGreaterThan(1000);
  expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
});

test('a refused request changes nothing', async () => {
  const { host, values } = await openKnownHost();
  const before = await contents(host);
  for (const verb of VERB_NAMES) {
    const good = sampleRequest(verb, values);
    const refused = [null, [], 'text', { ...(good as object), extra: 1 }];
    for (const payload of refused) expect(await host.refusal(verb, payload)).toMatch(/^bad-request: The call /);
  }
  expect(await contents(host)).toBe(before);
});

test('every verb with the request of every other verb', async () => {
  const { host, values } = await openKnownHost();
  for (const verb of VERB_NAMES)
    for (const other of VERB_NAMES) await expectForeseen(host, verb, sampleRequest(other, values), `the request of ${other}`);
});

test('anything at all, to any verb or name', async () => {
  const { host } = await openKnownHost();
  const names = fc.oneof(
    fc.constantFrom(...VERB_NAMES),
    fc.string(),
    fc.constantFrom('__proto__', 'constructor', 'hasOwnProperty'),
  );
  await fc.assert(
    fc.asyncProperty(
      names,
      fc.anything({ maxDepth: 4, withBigInt: true, withDate: true, withTypedArray: true }),
      async (verb, payload) => {
        const answer = await host.call(verb, payload);
        if (!answer.ok) expect(FORESEEN).toContain(answer.error.code);
      },
    ),
    { numRuns: 500, seed: 20_260_101 },
  );
});
