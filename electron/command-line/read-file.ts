import { readFileSync, statSync } from 'node:fs';
import { CommandError } from './command-error.ts';

/** Most bytes of a file that is read at all; over every format's own limit. */
const MOST_BYTES = 100 * 1024 * 1024;

/** Bytes and text of a file. Throws CommandError, one sentence, where it cannot be read or is no UTF-8 text. */
export function readTextFile(file: string): string {
  const bytes = readBytes(file);
  try {
    // A byte order mark stays in: to a sealed file it is a changed byte like any other.
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    throw new NotTextError(`${file} is not a text file: it holds bytes that are not UTF-8.`);
  }
}

export class NotTextError extends CommandError {}

function readBytes(file: string): Buffer {
  try {
    const { size } = statSync(file);
    if (size > MOST_BYTES)
      throw new CommandError(`${file} is ${size} bytes long; no file of this program is over ${MOST_BYTES}.`);
    return readFileSync(file);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (code === 'ENOENT' || code === 'ENOTDIR') throw new CommandError(`There is no file ${file}.`);
    if (code === 'EISDIR') throw new CommandError(`${file} is a folder, not a file.`);
    if (typeof code === 'string') throw new CommandError(`${file} cannot be read (${code}).`);
    throw error;
  }
}
