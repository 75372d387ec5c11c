import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { root } from './root.mjs';
import { runChild } from './run-child.mjs';

const lockPath = join(root, 'package-lock.json');
/** Written by npm itself at the end of an install that went well. */
const recordPath = join(root, 'node_modules', '.package-lock.json');
const stampPath = join(root, 'node_modules', '.kerfhand-installed');

/** The lock file and the platform: a checkout carried to another system installs again. */
function wantedStamp() {
  const lock = createHash('sha256').update(readFileSync(lockPath)).digest('hex');
  return `${lock} ${process.platform}-${process.arch}\n`;
}

/** @param {string} path */
function readOrEmpty(path) {
  return existsSync(path) ? readFileSync(path, 'utf8') : '';
}

/**
 * Whether npm's own record of what is in node_modules holds every package of the lock file at its version. So a person's own
 * `npm ci` counts, and nothing that is in use is taken away to be installed again.
 * @param {string} lockText package-lock.json
 * @param {string} recordText node_modules/.package-lock.json, empty where there is none
 */
export function isInstalled(lockText, recordText) {
  if (!recordText) return false;
  const installed = JSON.parse(recordText).packages;
  /** @type {[string, {version: string, optional?: boolean}][]} */
  const wanted = Object.entries(JSON.parse(lockText).packages);
  return wanted.every(([path, entry]) => {
    if (path === '') return true;
    const found = installed[path];
    return found ? found.version === entry.version : entry.optional === true;
  });
}

const isWindows = process.platform === 'win32';
export const NPM = { program: isWindows ? 'npm.cmd' : 'npm', shell: isWindows };

/**
 * Makes a folder's node_modules what its lock file says. npm's output goes to stderr, so that stdout stays the caller's.
 * Throws where npm fails.
 * @param {string} folder
 * @param {string[]} switches
 */
export async function installPackages(folder, switches) {
  const args = ['ci', '--no-audit', '--no-fund', '--loglevel=error', ...switches];
  const code = await runChild(NPM.program, args, { cwd: folder, stdio: ['ignore', 2, 2], shell: NPM.shell });
  if (code !== 0) throw new Error(`The packages could not be installed: npm ci ended with code ${code}; its message is above.`);
}

/**
 * Makes node_modules what the lock file says; does nothing where it already is. Messages go to stderr.
 * Throws where npm fails; the stamp is written only after success, so the next call tries again.
 */
export async function ensureInstalled() {
  const stamp = wantedStamp();
  if (readOrEmpty(stampPath) === stamp) return;
  if (!isInstalled(readFileSync(lockPath, 'utf8'), readOrEmpty(recordPath))) {
    process.stderr.write('Kerfhand: installing the packages it is built from (npm ci), once.\n');
    await installPackages(root, ['--include=dev', '--include=optional']);
  }
  writeFileSync(stampPath, stamp);
}
