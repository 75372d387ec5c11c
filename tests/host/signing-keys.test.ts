import { randomUUID } from 'node:crypto';
import { expect, onTestFinished, test } from 'vitest';
import { openRecords } from '../../electron/host/open-records.ts';
import { makeSigningKey, readPublicKey } from '../../electron/host/papers/signing-key.ts';
import { createSigningKeys } from '../../electron/host/signing-keys.ts';
import { CHEAP_SCRYPT, temporaryFolder } from './open-test-host.ts';

async function openKeys() {
  const { db, close } = await openRecords({ folder: temporaryFolder(), appVersion: '0.1.0' });
  onTestFinished(close);
  const personId = randomUUID();
  const created_at = '2030-01-31T09:45:00.000Z';
  await db.insertInto('people').values({ id: personId, role: 'assessor', number: 1, created_at }).execute();
  return { db, personId, keys: createSigningKeys(db, CHEAP_SCRYPT.n) };
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
  await keys.replace(db, personId, await keys.reseal(personId, 'one', 'two'));
  const live = (await keys.publicKeys(personId)).filter((key) => key.retiredAt === null);
  expect(live.map((key) => key.publicPem)).toEqual([first.publicKeyPem]);
  expect((await keys.sealedKey(personId, 'two')).publicKeyPem).toBe(first.publicKeyPem);
});
