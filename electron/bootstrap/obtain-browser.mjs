import { existsSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { chromium } from '@playwright/test';
import { findBrowser } from './find-browser.mjs';
import { root } from './root.mjs';
import { runChild } from './run-child.mjs';

/** Debian's own package, where that is possible: as root on a Debian. */
async function installDebianPackage() {
  if (process.getuid?.() !== 0 || !existsSync('/etc/debian_version')) return;
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  if ((await runChild('apt-get', ['-q', 'update'], { env })) !== 0) return;
  await runChild('apt-get', ['-q', 'install', '-y', '--no-install-recommends', 'chromium'], { env });
}

/** Playwright's own download, into its own cache. */
async function downloadPlaywrightBrowser() {
  await runChild(process.execPath, [join(root, 'node_modules', '@playwright', 'test', 'cli.js'), 'install', 'chromium']);
}

/**
 * A browser for the tests: an installed one, else Debian's package, else Playwright's own download.
 * Throws where none of these is to be had.
 * @param {(line: string) => void} say
 * @returns {Promise<string>} path of its program
 */
export async function obtainBrowser(say) {
  /** @type {(() => Promise<void>)[]} */
  const ways = [async () => {}, installDebianPackage, downloadPlaywrightBrowser];
  for (const [index, way] of ways.entries()) {
    if (index === 1) say('no browser of the Chromium family is installed; getting one for the tests');
    await way();
    const installed = findBrowser() ?? chromium.executablePath();
    if (existsSync(installed)) return installed;
  }
  throw new Error('No browser for the tests could be found or installed: install Chromium, or name one in CHROMIUM_PATH.');
}
