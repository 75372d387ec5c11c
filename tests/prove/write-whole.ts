import { mkdirSync, renameSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/** Writes a file so that it is there whole or not at all, whenever the campaign is broken off; its folder is made where there is none. */
export function writeWhole(file: string, content: string | Uint8Array): void {
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(`${file}.new`, content);
  renameSync(`${file}.new`, file);
}
