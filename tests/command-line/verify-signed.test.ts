// `verify RUN --public-key FILE` as a person types it: exit codes and sentences for good, forged, exchanged and damaged papers.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { encodeVerdict, signVerdict } from '../../electron/host/papers/sign-verdict.ts';
import { makeSigningKey, type SealedKey } from '../../electron/host/papers/signing-key.ts';
import type { SignedVerdict } from '../../electron/host/papers/verdict.ts';
import { sha256Hex } from '../../sim-core/index.ts';
import { utf8Bytes } from '../../sim-core/math/utf-8.ts';
import { realRunText, TEST_SCRYPT_N, verdictOn } from '../papers/signed-run.ts';
import { kerfhand } from './run-kerfhand.ts';

let folder: string;
let key: SealedKey;
let signed: SignedVerdict;
let runText: string;
const inFolder = (name: string) => path.join(folder, name);
const put = (name: string, text: string | Uint8Array) => {
  writeFileSync(inFolder(name), text);
  return inFolder(name);
};

beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'kerfhand-verify-signed-'));
  key = await makeSigningKey('secret', TEST_SCRYPT_N);
  runText = realRunText(3);
  signed = await signVerdict(verdictOn(runText), key, 'secret');
  put('key.pem', key.publicKeyPem);
  put('run', runText);
  put('run.verdict', encodeVerdict(signed));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function verify(run: string, ...more: string[]) {
  const { code, stdout, stderr } = await kerfhand(['verify', inFolder(run), ...more, '--json']);
  return { code, stderr, json: (stdout === '' ? null : JSON.parse(stdout)) as Record<string, unknown> | null };
}
const withKey = () => ['--public-key', inFolder('key.pem')];

test('a signed run that comes out the same: 0, and what was signed', async () => {
  const { code, json, stderr } = await verify('run', ...withKey());
  expect(stderr).toBe('');
  expect(code).toBe(0);
  expect(json).toMatchObject({ verdict: 'same', signature: 'good' });
  expect(json?.signed).toMatchObject({ assessor: 'Assessor 01', decision: 'not-yet-competent', keyId: key.keyId });
  const { stdout } = await kerfhand(['verify', inFolder('run'), ...withKey()]);
  expect(stdout).toContain('Assessor 01 signed at 2030-02-01T10:15:00.000Z: not-yet-competent');
  expect(stdout).toContain('overruled to 55');
});

test('without a key the answer is that of the run alone, as it always was', async () => {
  expect((await verify('run')).json).toEqual({
    verdict: 'same',
    reason: 'Cut again from its inputs, the run comes out the same.',
  });
});

test('a changed verdict, another key, and a verdict of another run: 3', async () => {
  const forged = { ...signed, payload: { ...signed.payload, decision: 'competent' as const } };
  const verdict = put('forged.verdict', encodeVerdict(forged));
  const changed = await verify('run', ...withKey(), '--verdict', verdict);
  expect(changed).toMatchObject({ code: 3, json: { verdict: 'different', signature: 'does-not-fit' } });
  expect(changed.stderr).toContain('changed after signing');

  const other = put('other.pem', (await makeSigningKey('x', TEST_SCRYPT_N)).publicKeyPem);
  expect(await verify('run', '--public-key', other)).toMatchObject({ code: 3, json: { signature: 'does-not-fit' } });

  put('other-run', realRunText(4));
  const foreign = await verify('other-run', ...withKey(), '--verdict', inFolder('run.verdict'));
  expect(foreign).toMatchObject({ code: 3, json: { verdict: 'different', signature: 'good' } });
  expect(foreign.stderr).toContain('about another run');
});

test('a run that was changed and sealed again does not hide behind a verdict signed for it: 3', async () => {
  const head = JSON.parse(runText.split('\n')[0]) as { score: { score: number } };
  head.score.score = 97;
  const line = JSON.stringify(head);
  const resealed = `${line}\n{"sha256":"${sha256Hex(utf8Bytes(line))}"}\n`;
  put('resealed', resealed);
  put('resealed.verdict', encodeVerdict(await signVerdict(verdictOn(resealed), key, 'secret')));
  expect(await verify('resealed', ...withKey())).toMatchObject({ code: 3, json: { verdict: 'different', signature: 'good' } });
});

test('a run of another core with a good signature: 4', async () => {
  const line = runText.split('\n')[0].replace(/"coreVersion":"[^"]*"/, '"coreVersion":"0.0.1"');
  const old = `${line}\n{"sha256":"${sha256Hex(utf8Bytes(line))}"}\n`;
  put('old', old);
  put('old.verdict', encodeVerdict(await signVerdict(verdictOn(old), key, 'secret')));
  expect(await verify('old', ...withKey())).toMatchObject({ code: 4, json: { verdict: 'other-core', signature: 'good' } });
  expect(await verify('old', ...withKey(), '--verdict', inFolder('run.verdict'))).toMatchObject({ code: 3 });
});

test('a damaged run, and a verdict file that is none: 5', async () => {
  const bytes = readFileSync(inFolder('run'));
  bytes[bytes.length >> 1] ^= 1;
  put('hurt', bytes);
  put('hurt.verdict', encodeVerdict(signed));
  expect(await verify('hurt', ...withKey())).toMatchObject({ code: 5, json: { verdict: 'damaged' } });
  const half = put('half.verdict', encodeVerdict(signed).slice(0, 300));
  expect(await verify('run', ...withKey(), '--verdict', half)).toMatchObject({ code: 5, json: { signature: 'unreadable' } });
  const noText = put('no-text.verdict', Uint8Array.of(0xff, 0xfe, 0x00));
  expect(await verify('run', ...withKey(), '--verdict', noText)).toMatchObject({ code: 5 });
});

test('what is missing or put wrongly is said in one sentence', async () => {
  put('bare', runText);
  const missing = await verify('bare', ...withKey());
  expect(missing).toMatchObject({ code: 1, json: null });
  expect(missing.stderr).toBe(`There is no file ${inFolder('bare.verdict')}.\n`);
  const noKey = await verify('run', '--public-key', inFolder('run.verdict'));
  expect(noKey).toMatchObject({ code: 1, json: null });
  expect(noKey.stderr).toContain('This is not a public key in PEM');
  expect(await verify('run', '--verdict', inFolder('run.verdict'))).toMatchObject({ code: 2, json: null });
});
