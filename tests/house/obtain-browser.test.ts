import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { obtainBrowser } from '../../electron/bootstrap/obtain-browser.mjs';

const isRootOnDebian = process.getuid?.() === 0 && existsSync('/etc/debian_version');
const kept = { PATH: process.env.PATH, CHROMIUM_PATH: process.env.CHROMIUM_PATH };
let folder = '';

function writeProgram(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, `#!/bin/sh\n${text}\n`);
  chmodSync(path, 0o755);
  return path;
}

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfhand-browser-'));
  process.env.PATH = folder;
  delete process.env.CHROMIUM_PATH;
});

afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
  process.env.PATH = kept.PATH;
  if (kept.CHROMIUM_PATH !== undefined) process.env.CHROMIUM_PATH = kept.CHROMIUM_PATH;
});

describe('a browser for the tests', () => {
  test('one that is installed is taken as it is', async () => {
    const installed = writeProgram('google-chrome', 'exit 0');
    expect(await obtainBrowser(() => expect.fail('nothing is to be installed'))).toBe(installed);
  });

  test.runIf(isRootOnDebian)('as root on a Debian without one, its package is installed', async () => {
    const notes = join(folder, 'notes');
    const browser = join(folder, 'chromium');
    writeProgram(
      'apt-get',
      `echo "$@" >> ${notes}\ncase "$*" in *install*) echo '#!/bin/sh' > ${browser}; /bin/chmod 755 ${browser};; esac`,
    );
    const said: string[] = [];
    expect(await obtainBrowser((line: string) => said.push(line))).toBe(browser);
    expect(readFileSync(notes, 'utf8').split('\n')[0]).toBe('-q update');
    expect(readFileSync(notes, 'utf8')).toContain('install -y --no-install-recommends chromium');
    expect(said).toHaveLength(1);
  });
});
