// SHA-256 against the examples published with the Secure Hash Standard: FIPS 180-2 (NIST, 2002), appendix B.1 to B.3, and
// the empty message of NIST's byte-oriented test vectors. Values from memory, author and title given; the second test
// recomputes with Node's own implementation, so that a wrong memory cannot pass.
import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { sha256Hex } from '../../sim-core/index.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

test.each([
  ['B.1: one block', 'abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'B.2: two blocks',
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
  ['B.3: a million times a', 'a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
  ['the empty message', '', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
])('%s', (_name, message, digest) => {
  expect(sha256Hex(bytes(message))).toBe(digest);
});

test('agrees with another implementation at every length around the block borders', () => {
  for (let length = 0; length <= 260; length++) {
    const message = Uint8Array.from({ length }, (_, i) => (i * 131 + length * 7) & 255);
    expect(sha256Hex(message), `${length} bytes`).toBe(createHash('sha256').update(message).digest('hex'));
  }
});
