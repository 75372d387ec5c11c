import { type BackupFacts, FILE_PIECE_LIMIT_BYTES } from '../../electron/contract.ts';
import { toBase64 } from '../../sim-core/index.ts';
import { callHost } from '../app/host-client.ts';

export interface UploadedBackup {
  uploadId: string;
  fileName: string;
  facts: BackupFacts;
}

export interface UploadWatch {
  signal: AbortSignal;
  onProgress(done: number, total: number): void;
}

/**
 * Sends a backup to the host piece by piece and has it looked into. Changes nothing in the yard.
 * Rejects with a sentence where it cannot be read, and with the signal's reason where it was stopped.
 */
export async function uploadBackup(file: File, { signal, onProgress }: UploadWatch): Promise<UploadedBackup> {
  let uploadId: string | null = null;
  let offset = 0;
  do {
    onProgress(offset, file.size);
    const bytes = new Uint8Array(await file.slice(offset, offset + FILE_PIECE_LIMIT_BYTES).arrayBuffer());
    signal.throwIfAborted();
    const reply: { uploadId: string; received: number } = await callHost('addToBackup', {
      uploadId,
      offset,
      piece: toBase64(bytes),
    });
    signal.throwIfAborted();
    uploadId = reply.uploadId;
    offset = reply.received;
  } while (offset < file.size);
  onProgress(offset, file.size);
  const facts = await callHost('inspectBackup', { uploadId });
  signal.throwIfAborted();
  return { uploadId, fileName: file.name, facts };
}
