import path from 'node:path';
import type { Reply } from '../contract.ts';
import { atomicWrite } from './atomic-write.ts';
import { placeGone } from './storage-failure.ts';

/** Hands a text out as a file: where the shell can ask, to the place that is chosen; otherwise to the page, as a download. */
export type HandOutFile = (suggestedName: string, text: string) => Promise<Reply<'exportRun'>>;

export function handOutWith(askWhereToSave: ((suggestedName: string) => Promise<string | null>) | undefined): HandOutFile {
  return async (suggestedName, text) => {
    if (!askWhereToSave) return { outcome: 'text', fileName: suggestedName, text };
    const file = await askWhereToSave(suggestedName);
    if (file === null) return { outcome: 'cancelled' };
    return putFile(file, text);
  };
}

/** The same for a file that is no text. */
export type HandOutBytes = (suggestedName: string, bytes: Uint8Array) => Promise<Reply<'exportRunReport'>>;

export function handOutBytesWith(askWhereToSave: ((suggestedName: string) => Promise<string | null>) | undefined): HandOutBytes {
  return async (suggestedName, bytes) => {
    if (!askWhereToSave) return { outcome: 'bytes', fileName: suggestedName, bytes: Buffer.from(bytes).toString('base64') };
    const file = await askWhereToSave(suggestedName);
    if (file === null) return { outcome: 'cancelled' };
    return putFile(file, bytes);
  };
}

function putFile(file: string, content: string | Uint8Array): { outcome: 'saved'; fileName: string } {
  try {
    atomicWrite(file, content);
  } catch (error) {
    throw placeGone(error, 'file') ?? error;
  }
  return { outcome: 'saved', fileName: path.basename(file) };
}
