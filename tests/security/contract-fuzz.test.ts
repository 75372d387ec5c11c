// Whatever the page (or whoever took its place) sends: the host answers in one of the foreseen ways, never with an internal error,
// and a request that the contract does not take changes nothing. Requests are made from the contract itself, so a new verb is
// tried without a change here. The test host fails the test on any line in its fault log.
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { CALL_RULES } from '../../electron/contract/call-roles.ts';
import { VERB_NAMES, VERBS, type Verb } from '../../electron/contract.ts';
import type { HostOptions } from '../../electron/host/host.ts';
import { RECORDS_FILE } from '../../electron/host/open-records.ts';
import { type TestPage, temporaryFolder } from '../host/open-test-host.ts';
import { sampleBegin, sampleChunk } from '../host/sample-hand.ts';
import { openYardWithRoles, type YardWithRoles } from '../host/yard-with-roles.ts';
import { placesIn, sampleRequest, withValueAt } from './sample-request.ts';

/** These change who is signed in on the connection they are made on. */
const CHANGES_WHO: Verb[] = ['signIn', 'signOut', 'choosePerson', 'makeFirstInstructor'];

const FORESEEN = [
  ...['bad-request', 'not-found', 'conflict', 'missing-chunks', 'bad-file', 'newer-version'],
  ...['forbidden', 'wrong-passphrase', 'wait'],
];

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

const SQL = [
  "'; DROP TABLE runs; --",
  '"; DELETE FROM people; --',
  "' OR '1'='1",
  "1); UPDATE people SET role = 'instructor'; --",
  "' UNION SELECT sql FROM sqlite_master --",
  '%_[x]*?',
];

interface Known {
  yard: YardWithRoles;
  values: Record<string, unknown>;
  /** A page from which the call may be made; a new one where it changes who is signed in. */
  pageFor(verb: Verb): TestPage;
}

async function openKnownHost(options: Partial<HostOptions> = {}): Promise<Known> {
  const yard = await openYardWithRoles(options);
  const { apprentice, ids } = yard;
  const { runId, drillHash } = await apprentice.ask('beginRun', sampleBegin(ids.apprentice));
  await apprentice.ask('appendToRun', sampleChunk(runId, 0));
  return {
    yard,
    values: { personId: ids.apprentice, runId, drillId: sampleBegin().drillId, drillHash },
    pageFor(verb) {
      if (CHANGES_WHO.includes(verb)) return yard.host.page();
      const { roles } = CALL_RULES[verb];
      return yard[roles === 'anyone' ? 'apprentice' : roles[0]];
    },
  };
}

/** What the records hold, as far as the contract shows it. */
async function contents({ instructor }: YardWithRoles): Promise<string> {
  return JSON.stringify([
    await instructor.ask('listRuns', {}),
    await instructor.ask('listPeople', {}),
    await instructor.ask('listDrills', {}),
    await instructor.ask('getSettings', {}),
    await instructor.ask('listLedger', {}),
  ]);
}

async function expectForeseen(page: TestPage, verb: Verb, payload: unknown, what: string): Promise<void> {
  const taken = VERBS[verb].request.safeParse(payload).success;
  const answer = await page.call(verb, payload);
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

test('every field of every request, replaced by something hostile, removed, or joined by another', async () => {
  const { values, pageFor } = await openKnownHost();
  let tried = 0;
  for (const verb of VERB_NAMES) {
    const good = sampleRequest(verb, values);
    for (const place of placesIn(good)) {
      for (const [what, value] of HOSTILE) {
        await expectForeseen(pageFor(verb), verb, withValueAt(good, place, value), `${what} at ${place.join('.') || 'the top'}`);
        tried++;
      }
    }
    const { ok } = await pageFor(verb).call(verb, { ...(good as object), extra: 1 });
    expect([verb, ok]).toEqual([verb, false]);
  }
  expect(tried).toBeGreaterThan(1000);
  expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
});

/** Tables, indexes and triggers of the records as they are made. */
function tablesOf(folder: string): unknown[] {
  const records = new DatabaseSync(path.join(folder, RECORDS_FILE), { readOnly: true });
  try {
    return records.prepare('SELECT type, name, sql FROM sqlite_master ORDER BY name').all();
  } finally {
    records.close();
  }
}

test('SQL in every text of every request is text: no table is another afterwards, and what is kept is kept to the letter', async () => {
  const folder = temporaryFolder();
  const { yard, values, pageFor } = await openKnownHost({ folder });
  const before = tablesOf(folder);
  let tried = 0;
  for (const verb of VERB_NAMES) {
    const good = sampleRequest(verb, values);
    for (const place of placesIn(good)) {
      for (const text of SQL) {
        await expectForeseen(pageFor(verb), verb, withValueAt(good, place, text), `${text} at ${place.join('.') || 'the top'}`);
        tried++;
      }
    }
  }
  expect(tried).toBeGreaterThan(500);
  expect(tablesOf(folder)).toEqual(before);
  const { instructor } = yard;
  for (const name of SQL) await instructor.ask('saveGroup', { groupId: null, name, memberIds: [] });
  expect((await instructor.ask('listGroups', {})).groups.map((group) => group.name)).toEqual(expect.arrayContaining(SQL));
});

test('a refused request changes nothing', async () => {
  const { yard, values, pageFor } = await openKnownHost();
  const before = await contents(yard);
  for (const verb of VERB_NAMES) {
    const good = sampleRequest(verb, values);
    const refused = [null, [], 'text', { ...(good as object), extra: 1 }];
    for (const payload of refused) expect(await pageFor(verb).refusal(verb, payload)).toMatch(/^bad-request: The call /);
  }
  expect(await contents(yard)).toBe(before);
});

test('every verb with the request of every other verb', async () => {
  const { values, pageFor } = await openKnownHost();
  for (const verb of VERB_NAMES)
    for (const other of VERB_NAMES)
      await expectForeseen(pageFor(verb), verb, sampleRequest(other, values), `the request of ${other}`);
});

test('a call by no name, or by what cannot even be made a text, is refused like any other', async () => {
  const { yard } = await openKnownHost();
  for (const verb of [
    undefined,
    null,
    7,
    10n,
    Symbol('a'),
    {},
    [],
    { toString: 'a', valueOf: 'b' },
    Object.create(null),
    () => 'getSession',
  ]) {
    const answer = await yard.host.call(verb as Verb, {});
    expect(answer).toMatchObject({
      ok: false,
      error: { code: 'bad-request', message: expect.stringMatching(/^There is no call named "/) },
    });
  }
});

test('anything at all, to any verb or name', async () => {
  const { yard } = await openKnownHost();
  const { host } = yard;
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
