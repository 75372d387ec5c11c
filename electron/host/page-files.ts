import { existsSync, readdirSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { HostError } from './host-error.ts';

const CONTENT_TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.webp': 'image/webp',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
  '.txt': 'text/plain; charset=utf-8',
};

export interface PageFile {
  contentType: string;
  read(): Promise<Uint8Array<ArrayBuffer>>;
}

/** The built page: address path ('/', '/assets/x.js') to file. A path that is not in the list leads nowhere, whatever it spells. */
export type PageFiles = ReadonlyMap<string, PageFile>;

/**
 * Lists the built page once. Links are not followed and other kinds of file are left out.
 * @throws HostError 'not-found' where it was not built
 */
export function listPageFiles(folder: string): PageFiles {
  const files = new Map<string, PageFile>();
  for (const full of listFolder(folder)) {
    const contentType = CONTENT_TYPES[path.extname(full).toLowerCase()];
    if (!contentType) continue;
    const address = `/${path.relative(folder, full).split(path.sep).join('/')}`;
    files.set(address, { contentType, read: () => readFile(full) as Promise<Uint8Array<ArrayBuffer>> });
  }
  const index = files.get('/index.html');
  if (!index) throw notBuilt(folder);
  files.set('/', index);
  return files;
}

/** Plain files below a folder. readdir's own `recursive` would follow links to folders. */
function listFolder(folder: string): string[] {
  if (!existsSync(folder)) throw notBuilt(folder);
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const full = path.join(folder, entry.name);
    if (entry.isDirectory()) return listFolder(full);
    return entry.isFile() ? [full] : [];
  });
}

function notBuilt(folder: string): HostError {
  return new HostError('not-found', `The page is not built (no index.html in ${folder}); npm start builds it.`);
}
