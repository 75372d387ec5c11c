import { checkVerdict, readVerdict } from '../../../electron/host/papers/check-verdict.ts';
import type { PublicKey } from '../../../electron/host/papers/signing-key.ts';
import { verifyRunFile } from '../../../sim-core/index.ts';
import type { RandomState } from '../../../sim-core/math/random.ts';
import { below } from './pick.ts';

/** A signed run: the run file and the verdict file beside it, as bytes. */
export interface SignedPapers {
  run: Buffer;
  verdict: Buffer;
}

/** The bytes with one of them changed to any other, taken out, or any one put in. */
export function tamper(bytes: Buffer, random: RandomState): Buffer {
  const at = below(random, bytes.length);
  const [before, after] = [bytes.subarray(0, at), bytes.subarray(at + 1)];
  const way = below(random, 3);
  if (way === 0) return Buffer.concat([before, Buffer.from([bytes[at]! ^ (1 + below(random, 255))]), after]);
  if (way === 1) return Buffer.concat([before, after]);
  return Buffer.concat([before, Buffer.from([below(random, 256)]), bytes.subarray(at)]);
}

/** Whether it is told that one of the two papers is not what was signed: as `verify --public-key` comes to it, step for step. */
export function isTold(papers: SignedPapers, changed: keyof SignedPapers, bytes: Buffer, key: PublicKey): boolean {
  const text = textOf(bytes);
  if (text === null) return true;
  if (changed === 'run' && verifyRunFile(text).verdict !== 'same') return true;
  const read = readVerdict(changed === 'verdict' ? text : papers.verdict.toString('utf8'));
  return !read.ok || checkVerdict(read.verdict, key, changed === 'run' ? text : papers.run.toString('utf8')).check !== 'fits';
}

function textOf(bytes: Buffer): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}
