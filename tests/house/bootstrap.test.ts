import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { isInstalled } from '../../electron/bootstrap/install.mjs';
import { TOP } from './source-tree.ts';

const folder = mkdtempSync(join(tmpdir(), 'kerfhand-bootstrap-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const bootstrap = (name: string) => join(TOP, 'electron', 'bootstrap', name);

function writeProgram(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

describe('whether the packages of the lock file are installed', () => {
  const lock = JSON.stringify({
    packages: {
      '': {},
      'node_modules/a': { version: '1.0.0' },
      'node_modules/only-elsewhere': { version: '2.0.0', optional: true },
    },
  });
  const record = (packages: object) => JSON.stringify({ packages });

  test('all that is not optional, each at its version', () => {
    expect(isInstalled(lock, record({ 'node_modules/a': { version: '1.0.0' } }))).toBe(true);
  });
  test('nothing, one missing, or one of another version', () => {
    expect(isInstalled(lock, '')).toBe(false);
    expect(isInstalled(lock, record({}))).toBe(false);
    expect(isInstalled(lock, record({ 'node_modules/a': { version: '1.0.1' } }))).toBe(false);
    const oldOptional = { 'node_modules/a': { version: '1.0.0' }, 'node_modules/only-elsewhere': { version: '1.9.0' } };
    expect(isInstalled(lock, record(oldOptional))).toBe(false);
  });
});

describe('a program run on Node 24', () => {
  test('keeps stdout, arguments and exit code', () => {
    const program = writeProgram(
      'speak.ts',
      'const text: string = process.argv[2] ?? "";\nconsole.log(text, process.versions.node);\nprocess.exit(7);\n',
    );
    const { stdout, stderr, status } = spawnSync(process.execPath, [bootstrap('with-node-24.mjs'), program, 'kerf'], {
      encoding: 'utf8',
    });
    expect(stdout).toMatch(/^kerf (2[4-9]|[3-9]\d)\.\d+\.\d+\n$/);
    expect(stderr).toBe('');
    expect(status).toBe(7);
  });

  test('gets the signal that ends what started it', async () => {
    const program = writeProgram(
      'wait.ts',
      "process.on('SIGTERM', () => {\n  console.log('ended well');\n  process.exit(3);\n});\nconsole.log('ready');\nsetInterval(() => {}, 1000);\n",
    );
    const outer = spawn(process.execPath, [bootstrap('with-node-24.mjs'), program], { stdio: ['ignore', 'pipe', 'inherit'] });
    let output = '';
    outer.stdout.setEncoding('utf8').on('data', (text: string) => {
      output += text;
      if (text.includes('ready')) outer.kill('SIGTERM');
    });
    // Not 'exit': what was said last may be read after that.
    const [code] = await once(outer, 'close');
    expect(output).toBe('ready\nended well\n');
    expect(code).toBe(3);
  });
});

test('npm start refuses a flag that it does not know, and says which it knows', () => {
  const { stderr, status } = spawnSync(process.execPath, [bootstrap('start.mjs'), '--windowed'], { encoding: 'utf8' });
  expect(status).toBe(2);
  expect(stderr).toContain("'--windowed'");
  expect(stderr).toContain('npm start -- [--loopback] [--no-open] [--electron]');
});

test('CHROMIUM_PATH goes before every installed browser, and a wrong one is said', () => {
  const kept = process.env.CHROMIUM_PATH;
  try {
    process.env.CHROMIUM_PATH = process.execPath;
    expect(findBrowser()).toBe(process.execPath);
    process.env.CHROMIUM_PATH = join(folder, 'no-such-browser');
    expect(() => findBrowser()).toThrow('no-such-browser, which is not a program');
  } finally {
    if (kept === undefined) delete process.env.CHROMIUM_PATH;
    else process.env.CHROMIUM_PATH = kept;
  }
});
