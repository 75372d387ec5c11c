import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import process from 'node:process';

const COMMANDS = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge', 'brave-browser'];
const MAC_APPS = ['Google Chrome', 'Chromium', 'Microsoft Edge'];
const WINDOWS_APPS = ['Google\\Chrome\\Application\\chrome.exe', 'Microsoft\\Edge\\Application\\msedge.exe'];

/** @param {string} path */
function isExecutable(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** Places where an installed browser of the Chromium family may be, best first. */
function candidates() {
  if (process.platform === 'darwin') return MAC_APPS.map((name) => `/Applications/${name}.app/Contents/MacOS/${name}`);
  if (process.platform === 'win32') {
    const roots = [process.env.PROGRAMFILES, process.env['PROGRAMFILES(X86)'], process.env.LOCALAPPDATA];
    return WINDOWS_APPS.flatMap((app) => roots.flatMap((root) => (root ? [join(root, app)] : [])));
  }
  const folders = (process.env.PATH ?? '').split(delimiter).filter(Boolean);
  return COMMANDS.flatMap((command) => folders.map((folder) => join(folder, command)));
}

/**
 * Path of an installed browser of the Chromium family, or null. The variable CHROMIUM_PATH goes before everything.
 * Throws where CHROMIUM_PATH names no program.
 * @returns {string | null}
 */
export function findBrowser() {
  const named = process.env.CHROMIUM_PATH;
  if (named) {
    if (!isExecutable(named)) throw new Error(`CHROMIUM_PATH names ${named}, which is not a program that can be run.`);
    return named;
  }
  return candidates().find(isExecutable) ?? null;
}

/** Switches for a browser that should do nothing but show our page; root needs the browser's sandbox off. */
export function browserArguments() {
  const quiet = [
    '--no-first-run',
    '--no-default-browser-check',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--disable-quic',
  ];
  return process.getuid?.() === 0 ? [...quiet, '--no-sandbox'] : quiet;
}
