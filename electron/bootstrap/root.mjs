import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The top folder of the checkout. */
export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** Everything that is built or written by a tool; safe to delete. */
export const buildFolder = join(root, '.build');
