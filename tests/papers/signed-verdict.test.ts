// Canonical JSON against RFC 8785, Ed25519 against RFC 8032, and a verdict that is signed, carried about and tampered with.
import { createPrivateKey, createPublicKey, generateKeyPairSync } from 'node:crypto';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { canonicalJson } from '../../electron/host/papers/canonical-json.ts';
import { checkVerdict, readVerdict } from '../../electron/host/papers/check-verdict.ts';
import { encodeVerdict, signVerdict } from '../../electron/host/papers/sign-verdict.ts';
import {
  makeSigningKey,
  openSigningKey,
  type PublicKey,
  readPublicKey,
  resealSigningKey,
  type SealedKey,
  sealedKeySchema,
  signatureFits,
  signBytes,
} from '../../electron/host/papers/signing-key.ts';
import { marksAfterOverruling, type SignedVerdict, type VerdictPayload } from '../../electron/host/papers/verdict.ts';
import { isTold, tamper } from '../security/hostile/tamper.ts';
import { realRunText, TEST_SCRYPT_N, verdictOn } from './signed-run.ts';

const PASSPHRASE = 'blue gangway, third plank';
let runText: string;
let payload: VerdictPayload;
let key: SealedKey;
let publicKey: PublicKey;
let signed: SignedVerdict;

beforeAll(async () => {
  runText = realRunText(3);
  payload = verdictOn(runText);
  key = await makeSigningKey(PASSPHRASE, TEST_SCRYPT_N);
  publicKey = readPublicKey(key.publicKeyPem);
  signed = await signVerdict(payload, key, PASSPHRASE);
});

describe('canonical JSON', () => {
  test('of the example in RFC 8785, section 3.2.2 to 3.2.4', () => {
    const text =
      '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}';
    expect(canonicalJson(JSON.parse(text))).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });
  test('sorts by UTF-16 units, as RFC 8785, section 3.2.3, shows', () => {
    const keys = ['\u20ac', '\r', '\ufb33', '1', '\ud83d\ude00', '\u0080', '\u00f6'];
    const sorted = Object.keys(JSON.parse(canonicalJson(Object.fromEntries(keys.map((name) => [name, 0])))) as object);
    // A key that looks like a number goes first in any object that is read back; it stands second in the text.
    expect(sorted.filter((name) => name !== '1')).toEqual(['\r', '\u0080', '\u00f6', '\u20ac', '\ud83d\ude00', '\ufb33']);
    expect(canonicalJson({ b: 1, 1: 0, '\r': 2 })).toBe('{"\\r":2,"1":0,"b":1}');
  });
  test('reads back as the same value and does not depend on the order of keys', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const text = canonicalJson(value);
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)));
        expect(canonicalJson(JSON.parse(text))).toBe(text);
      }),
      { seed: 20_260_112 },
    );
  });
  test('refuses what JSON would drop or bend', () => {
    const loop: Record<string, unknown> = {};
    loop.self = loop;
    for (const value of [Number.NaN, 1 / 0, '\ud83d', { a: undefined }, [() => 1], loop, Array(2)]) {
      expect(() => canonicalJson(value)).toThrow(RangeError);
    }
  });
});

test('Ed25519 is that of RFC 8032, section 7.1, tests 1 and 2', () => {
  const vectors = [
    [
      '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
      '',
      'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
    ],
    [
      '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
      '72',
      '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
    ],
  ];
  for (const [secret, message, signature] of vectors) {
    const der = Buffer.from(`302e020100300506032b657004220420${secret}`, 'hex');
    const privateKey = createPrivateKey({ key: der, format: 'der', type: 'pkcs8' });
    const bytes = Buffer.from(message, 'hex');
    expect(Buffer.from(signBytes(bytes, privateKey), 'base64').toString('hex')).toBe(signature);
    expect(signatureFits(bytes, Buffer.from(signature, 'hex').toString('base64'), createPublicKey(privateKey))).toBe(true);
  }
});

describe('a signing key', () => {
  test('opens with its passphrase, typed either way, and with no other', async () => {
    const accented = await makeSigningKey('caf\u00e9 slipway', TEST_SCRYPT_N);
    await expect(openSigningKey(accented, 'cafe\u0301 slipway')).resolves.toBeDefined();
    await expect(openSigningKey(accented, 'cafe slipway')).rejects.toMatchObject({ code: 'forbidden' });
    await expect(signVerdict(payload, key, `${PASSPHRASE} `)).rejects.toMatchObject({ code: 'forbidden' });
  });
  test('is kept in a form that does not hold the private half in the open', () => {
    expect(sealedKeySchema.parse(JSON.parse(JSON.stringify(key)))).toEqual(key);
    expect(JSON.stringify(key)).not.toContain('PRIVATE');
    expect(key.publicKeyPem).toMatch(/^-----BEGIN PUBLIC KEY-----/);
  });
  test('does not open once anything about it was changed', async () => {
    const other = await makeSigningKey(PASSPHRASE, TEST_SCRYPT_N);
    const spoilt: SealedKey[] = [
      { ...key, publicKeyPem: other.publicKeyPem },
      { ...key, keyId: other.keyId },
      { ...key, sealed: `${key.sealed.slice(0, -2)}${key.sealed.endsWith('00') ? '01' : '00'}` },
      { ...key, tag: other.tag },
      { ...key, scrypt: { ...key.scrypt, n: 256 } },
      { ...key, scrypt: { ...key.scrypt, n: 1_048_576, r: 32 } },
    ];
    for (const one of spoilt) await expect(openSigningKey(one, PASSPHRASE)).rejects.toMatchObject({ code: 'forbidden' });
  });
  test('can be put under another passphrase and stays the same key', async () => {
    const again = await resealSigningKey(key, PASSPHRASE, 'a new one');
    expect(again.keyId).toBe(key.keyId);
    await expect(openSigningKey(again, PASSPHRASE)).rejects.toMatchObject({ code: 'forbidden' });
    const fresh = await signVerdict(payload, again, 'a new one');
    expect(checkVerdict(fresh, publicKey, runText).check).toBe('fits');
  });
  test('costs what it should where no test asks for less', async () => {
    const real = await makeSigningKey(PASSPHRASE);
    expect(real.scrypt).toMatchObject({ n: 131_072, r: 8, p: 1 });
    await expect(openSigningKey(real, PASSPHRASE)).resolves.toBeDefined();
  });
  test('public: what is none is refused with a sentence', () => {
    const rsa = generateKeyPairSync('rsa', { modulusLength: 1024 });
    const own = generateKeyPairSync('ed25519').privateKey.export({ format: 'pem', type: 'pkcs8' }).toString();
    expect(() => readPublicKey('hello')).toThrow('not a public key in PEM');
    expect(() => readPublicKey(own)).toThrow('holds a private key');
    expect(() => readPublicKey(rsa.publicKey.export({ format: 'pem', type: 'spki' }).toString())).toThrow('type rsa');
  });
});

describe('a signed verdict', () => {
  test('fits its run under its key', () => {
    expect(checkVerdict(signed, publicKey, runText)).toEqual({
      check: 'fits',
      reason: 'Signed by Assessor 01 at 2030-02-01T10:15:00.000Z: not-yet-competent.',
    });
  });
  test('is told as damaged in another layout, though it says the same', () => {
    for (const text of [JSON.stringify(signed), `${encodeVerdict(signed)} `, encodeVerdict(signed).replace('  "', '\t "')])
      expect(readVerdict(text)).toMatchObject({ ok: false, why: 'damaged', sentence: expect.stringContaining('byte for byte') });
  });
  test('no byte of run or verdict can be changed, put in or taken out unseen', () => {
    const random = { counter: 20260101 };
    const papers = { run: Buffer.from(runText, 'utf8'), verdict: Buffer.from(encodeVerdict(signed), 'utf8') };
    const tries = (['run', 'verdict'] as const).flatMap((paper) => Array.from({ length: 100 }, () => paper));
    const untold = tries.filter((paper) => !isTold(papers, paper, tamper(papers[paper], random), publicKey));
    expect(untold).toEqual([]);
    expect(isTold(papers, 'verdict', papers.verdict, publicKey)).toBe(false);
  });
  test('no field of it can be changed unseen', () => {
    const changes: Partial<VerdictPayload>[] = [
      { decision: 'competent' },
      { reasons: `${payload.reasons}.` },
      { assessor: 'Assessor 02' },
      { at: '2030-02-01T10:15:00.001Z' },
      { overruled: [] },
      { overruled: [{ ...payload.overruled[0], mark: 56 }] },
      { marks: payload.marks.map((one, index) => (index === 0 ? { ...one, mark: (one.mark + 1) % 100 } : one)) },
      { score: 99 },
      { runId: '0b7c2c1e-58a2-4f0b-9d6e-3f6c5c0f9a12' },
      { runDigest: '0'.repeat(64) },
      { drillDigest: '0'.repeat(64) },
    ];
    for (const change of changes) {
      const forged = { ...signed, payload: { ...payload, ...change } };
      expect(checkVerdict(forged, publicKey, runText).check, JSON.stringify(change)).toBe('forged');
    }
    expect(new Set(changes.flatMap(Object.keys)).size + 2, 'every field but format and formatVersion').toBe(
      Object.keys(payload).length,
    );
  });
  test('neither key nor signature can be exchanged', async () => {
    const other = await makeSigningKey(PASSPHRASE, TEST_SCRYPT_N);
    const byOther = await signVerdict(payload, other, PASSPHRASE);
    expect(checkVerdict(byOther, publicKey, runText).check).toBe('other-key');
    expect(checkVerdict({ ...byOther, keyId: signed.keyId }, publicKey, runText).check).toBe('forged');
    expect(checkVerdict({ ...signed, keyId: byOther.keyId }, publicKey, runText).check).toBe('forged');
    expect(checkVerdict({ ...signed, signature: byOther.signature }, publicKey, runText).check).toBe('forged');
    // The last character before the padding has four bits that decoders skip.
    const twin = signed.signature.replace(/.==$/, (end) => `${String.fromCharCode(end.charCodeAt(0) + 1)}==`);
    expect(checkVerdict({ ...signed, signature: twin }, publicKey, runText).check).toBe('forged');
  });
  test('says so where it is about another run', async () => {
    const { check, reason } = checkVerdict(signed, publicKey, realRunText(4));
    expect(check).toBe('other-run');
    expect(reason).toContain('its digest is not that of this file');
    const wrongMarks = await signVerdict({ ...payload, score: 12 }, key, PASSPHRASE);
    expect(checkVerdict(wrongMarks, publicKey, runText).reason).toContain('its marks are not those of this file');
    const wrongDrill = await signVerdict({ ...payload, drillDigest: 'a'.repeat(64) }, key, PASSPHRASE);
    expect(checkVerdict(wrongDrill, publicKey, runText).reason).toContain('another version of the drill');
  });
  test('is not signed unless it is whole', async () => {
    const unknown = { measureId: 'groove-depth', mark: 1, reason: 'why not' };
    const bad: Partial<VerdictPayload>[] = [
      { reasons: '  ' },
      { overruled: [{ ...payload.overruled[0], reason: '' }] },
      { overruled: [unknown] },
      { overruled: [payload.overruled[0], payload.overruled[0]] },
      { score: 101 },
    ];
    for (const change of bad) {
      await expect(signVerdict({ ...payload, ...change }, key, PASSPHRASE)).rejects.toMatchObject({ code: 'bad-request' });
    }
  });
  test('keeps both marks where one was overruled', () => {
    const [first, ...rest] = marksAfterOverruling(payload);
    expect(first).toEqual({ measureId: payload.marks[0].measureId, mark: 55 });
    expect(rest).toEqual(payload.marks.slice(1));
  });
  test('a file that is none gets a sentence, whatever is in it', () => {
    const text = encodeVerdict(signed);
    expect(readVerdict(text)).toEqual({ ok: true, verdict: signed });
    expect(readVerdict('')).toMatchObject({ ok: false, why: 'damaged' });
    expect(readVerdict(text.slice(0, -9))).toMatchObject({ ok: false, why: 'damaged' });
    expect(readVerdict('[1]')).toMatchObject({ ok: false, sentence: 'This is not a verdict file.' });
    expect(readVerdict(text.replace('"formatVersion": 1', '"formatVersion": 2'))).toMatchObject({ ok: false, why: 'newer' });
    expect(readVerdict(text.replace('"competent', '"skilful').replace('"not-yet-competent', '"skilful'))).toMatchObject({
      ok: false,
      sentence: expect.stringContaining('$.payload.decision'),
    });
    fc.assert(
      fc.property(fc.string(), (noise) => readVerdict(noise).ok === false),
      { seed: 20_260_112 },
    );
  });
});
