import { createPublicKey } from 'node:crypto';
import { HostError } from '../host-error.ts';
import { openSigningKey, readPublicKey, type SealedKey, signatureFits, signBytes } from './signing-key.ts';
import { type SignedVerdict, type VerdictPayload, verdictBytes, verdictPayloadSchema } from './verdict.ts';

/**
 * Signs a verdict with the assessor's key.
 * @throws HostError 'forbidden' where the passphrase does not open the key, 'bad-request' where the verdict is not a whole one
 */
export async function signVerdict(payload: VerdictPayload, key: SealedKey, passphrase: string): Promise<SignedVerdict> {
  const whole = verdictPayloadSchema.safeParse(payload);
  if (!whole.success) {
    const [issue] = whole.error.issues;
    throw new HostError('bad-request', `The verdict cannot be signed: ${issue.path.join('.') || 'it'}: ${issue.message}.`);
  }
  const privateKey = await openSigningKey(key, passphrase);
  const bytes = verdictBytes(whole.data);
  const signature = signBytes(bytes, privateKey);
  // A signature that nobody can check would be found out years later.
  if (!signatureFits(bytes, signature, createPublicKey(privateKey)))
    throw new Error('A fresh signature does not fit its own key.');
  return { payload: whole.data, keyId: readPublicKey(key.publicKeyPem).keyId, signature };
}

/** The text of a verdict file. */
export function encodeVerdict(verdict: SignedVerdict): string {
  return `${JSON.stringify(verdict, null, 2)}\n`;
}
