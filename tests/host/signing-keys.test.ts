import { randomUUID } from 'node:crypto';
import { expect, onTestFinished, test } from 'vitest';
import type { Person } from '../../electron/contract.ts';
import type { HandOutFile } from '../../electron/host/hand-out-file.ts';
import { openRecords } from '../../electron/host/open-records.ts';
import { makeSigningKey, openSigningKey, readPublicKey } from '../../electron/host/papers/signing-key.ts';
import { createPassphrases } from '../../electron/host/passphrases.ts';
import { createSigningKeys, type SigningKeys } from '../../electron/host/signing-keys.ts';
import { createVerdicts, type VerdictsNeeds } from '../../electron/host/verdicts.ts';
import { CHEAP_SCRYPT, temporaryFolder } from './open-test-host.ts';

async function openKeys() {
  const { db, close } = await openRecords({ folder: temporaryFolder(), appVersion: '0.1.0' });
  onTestFinished(close);
  const personId = randomUUID();
  const created_at = '2030-01-31T09:45:00.000Z';
  await db.insertInto('people').values({ id: personId, role: 'assessor', number: 1, created_at }).execute();
  const passphrases = createPassphrases(db, CHEAP_SCRYPT);
  await passphrases.keep(db, personId, await passphrases.hash('one'));
  return { db, personId, passphrases, keys: createSigningKeys(db, CHEAP_SCRYPT.n) };
}

/** What is handed out as the key of a person. */
async function exportedKey(keys: SigningKeys, personId: string): Promise<string> {
  const handOut: HandOutFile = async (fileName, text) => ({ outcome: 'text', fileName, text });
  const person: Person = {
    id: personId,
    role: 'assessor',
    number: 1,
    name: 'Assessor 01',
    createdAt: '2030-01-31T09:45:00.000Z',
  };
  const file = await createVerdicts({ keys, handOut } as VerdictsNeeds).exportKey(person);
  return file.outcome === 'text' ? file.text : '';
}

test('two first signatures at once make one key', async () => {
  const { keys, personId } = await openKeys();
  const [first, second] = await Promise.all([keys.sealedKey(personId, 'one'), keys.sealedKey(personId, 'one')]);
  expect(second).toEqual(first);
  expect(await keys.publicKeys(personId)).toHaveLength(1);
});

test('of two live keys that records hold, a change of passphrase keeps the first and retires the other', async () => {
  const { db, keys, personId } = await openKeys();
  const first = await keys.sealedKey(personId, 'one');
  const twin = await makeSigningKey('one', CHEAP_SCRYPT.n);
  await db
    .insertInto('signing_keys')
    .values({
      fingerprint: readPublicKey(twin.publicKeyPem).keyId,
      person_id: personId,
      public_pem: twin.publicKeyPem,
      wrapped: JSON.stringify(twin),
      created_at: '2099-01-31T09:45:00.000Z',
      retired_at: null,
    })
    .execute();
  expect(await exportedKey(keys, personId)).toBe(first.publicKeyPem);
  await keys.replace(db, personId, await keys.reseal(personId, 'one', 'two'));
  const live = (await keys.publicKeys(personId)).filter((key) => key.retiredAt === null);
  expect(live.map((key) => key.publicPem)).toEqual([first.publicKeyPem]);
  expect((await keys.sealedKey(personId, 'two')).publicKeyPem).toBe(first.publicKeyPem);
});

test.each(['before', 'after'])(
  'a first signature that comes %s a new passphrase leaves no key under the old one',
  async (when) => {
    const { db, passphrases, keys, personId } = await openKeys();
    const sign = () => keys.sealedKey(personId, 'one');
    const change = () =>
      keys.inOrder(personId, async () => {
        const hash = await passphrases.hash('two');
        await db.transaction().execute(async (step) => {
          await passphrases.keep(step, personId, hash);
          await keys.replace(step, personId, null);
        });
      });
    await Promise.allSettled((when === 'before' ? [sign, change] : [change, sign]).map((work) => work()));
    expect((await keys.publicKeys(personId)).filter((key) => key.retiredAt === null)).toEqual([]);
    await openSigningKey(await keys.sealedKey(personId, 'two'), 'two');
  },
);

test('a passphrase that was changed while a key was being made seals none', async () => {
  const { db, passphrases, keys, personId } = await openKeys();
  const hash = await passphrases.hash('two');
  const making = keys.sealedKey(personId, 'one');
  await passphrases.keep(db, personId, hash);
  await expect(making).rejects.toMatchObject({ code: 'wrong-passphrase' });
  expect(await keys.publicKeys(personId)).toEqual([]);
});
