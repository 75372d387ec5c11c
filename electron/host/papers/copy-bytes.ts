import { createHash } from 'node:crypto';
import type { FileHandle } from 'node:fs/promises';
import { HostError } from '../host-error.ts';

const CHUNK_BYTES = 1024 * 1024;

/** What lets a long job be watched and stopped. */
export interface JobWatch {
  signal?: AbortSignal;
  /** Bytes done so far, of how many. */
  onProgress?: (done: number, total: number) => void;
}

/** @throws HostError 'conflict' where the job was told to stop */
export function mustGoOn(watch: JobWatch): void {
  if (watch.signal?.aborted) throw new HostError('conflict', 'It was stopped before it was done; nothing was changed.');
}

/**
 * Copies `length` bytes from where `source` stands on, to where `target` stands (none: reads only), and digests them on the way.
 * @param step is told how many bytes have just been copied
 * @returns the SHA-256 of the bytes, and how many there were: fewer than `length` where the source ends before
 */
export async function copyBytes(
  source: FileHandle,
  target: FileHandle | null,
  length: number,
  watch: JobWatch,
  step: (bytes: number) => void,
): Promise<{ sha256: string; bytes: number }> {
  const hash = createHash('sha256');
  const chunk = Buffer.alloc(Math.min(CHUNK_BYTES, Math.max(1, length)));
  let bytes = 0;
  while (bytes < length) {
    mustGoOn(watch);
    const { bytesRead } = await source.read(chunk, 0, Math.min(chunk.length, length - bytes), null);
    if (bytesRead === 0) break;
    const part = chunk.subarray(0, bytesRead);
    hash.update(part);
    if (target) await writeAll(target, part);
    bytes += bytesRead;
    step(bytesRead);
  }
  return { sha256: hash.digest('hex'), bytes };
}

export async function writeAll(target: FileHandle, bytes: Uint8Array): Promise<void> {
  for (let at = 0; at < bytes.length; ) at += (await target.write(bytes, at)).bytesWritten;
}
