import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { createInterface } from 'node:readline';
import { browserArguments, findBrowser } from './find-browser.mjs';
import { NODE_SWITCHES } from './node-24.mjs';
import { root } from './root.mjs';
import { untilExit } from './run-child.mjs';

/** Whether a window can be shown at all. */
export function hasDisplay() {
  if (process.platform === 'darwin' || process.platform === 'win32') return true;
  return Boolean(process.env.DISPLAY || process.env.WAYLAND_DISPLAY);
}

/** The browser to show the page in, or why there is none. @param {boolean} open */
function chooseBrowser(open) {
  if (!open) return { without: 'no window was asked for' };
  if (!hasDisplay()) return { without: 'there is no display here' };
  try {
    const browser = findBrowser();
    return browser ? { browser } : { without: 'no browser of the Chromium family was found' };
  } catch (error) {
    return { without: (error instanceof Error ? error.message : String(error)).replace(/\.$/, '') };
  }
}

/**
 * Shows the page in a window of its own; resolves when that window is closed. It has a profile of its own, so it neither joins
 * nor disturbs the person's browser.
 * @param {string} browser
 * @param {string} address
 * @returns {Promise<number>} the browser's exit code
 */
async function showAppWindow(browser, address) {
  const profile = mkdtempSync(join(tmpdir(), 'kerfhand-window-'));
  try {
    const window = spawn(browser, [...browserArguments(), `--user-data-dir=${profile}`, `--app=${address}`], { stdio: 'ignore' });
    return await untilExit(window);
  } finally {
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  }
}

/**
 * Runs the host behind a loopback address, shows the page in an installed browser where it may and can, and prints the one line
 * that says what was opened and why. Closing the window ends the host.
 * @param {{open: boolean, why: string, say: (line: string) => void}} options
 * @returns {Promise<number>} the exit code
 */
export async function openOverLoopback({ open, why, say }) {
  const host = spawn(process.execPath, [...NODE_SWITCHES, join(root, 'electron', 'loopback.ts'), '--until-input-ends'], {
    cwd: root,
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const ended = untilExit(host);

  /** @param {string} line */
  async function tell(line) {
    const address = line.match(/http:\/\/127\.0\.0\.1:\d+\S*/)?.[0];
    if (!address) return say(line);
    const { browser, without } = chooseBrowser(open);
    if (!browser) return say(`open ${address} in a browser (${without}; not in Electron: ${why}). Ctrl-C ends it.`);
    say(`open in a window of ${browser} at ${address} (not in Electron: ${why}).`);
    const code = await showAppWindow(browser, address).catch(() => 1);
    if (code === 0) host.stdin.end();
    else if (host.exitCode === null)
      say(`the window of ${browser} ended with code ${code}; ${address} can still be opened in a browser.`);
  }

  const failed = new Promise((_resolve, reject) => {
    createInterface({ input: host.stdout }).on('line', (line) => tell(line).catch(reject));
  });
  try {
    return await Promise.race([ended, failed]);
  } finally {
    // Windows knows no signal that a program can end cleanly at; the end of its input is one everywhere.
    host.stdin.end();
  }
}
