import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterEach, expect, test } from 'vitest';
import { TOP } from './source-tree.ts';

const folders: string[] = [];
const started: ChildProcess[] = [];

afterEach(() => {
  for (const child of started.splice(0)) child.kill('SIGKILL');
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** npm start with records of its own; resolves with the address that it prints. */
async function startApp(flags: string[], environment: NodeJS.ProcessEnv = {}) {
  const data = mkdtempSync(join(tmpdir(), 'kerfhand-start-'));
  folders.push(data);
  const app = spawn(process.execPath, [join(TOP, 'electron', 'bootstrap', 'start.mjs'), ...flags], {
    env: { ...process.env, ...environment, KERFHAND_DATA: data },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  started.push(app);
  const lines: string[] = [];
  for await (const line of createInterface({ input: app.stdout })) {
    lines.push(line);
    const address = line.match(/http:\/\/127\.0\.0\.1:\d+\/\S*/)?.[0];
    if (address) return { app, address, line };
  }
  throw new Error(`npm start printed no address: ${lines.join('\n')}`);
}

test.each(['SIGTERM', 'SIGINT'] as const)(
  'npm start serves the built page, says where and why, and %s ends all of it',
  async (signal) => {
    const { app, address, line } = await startApp(['--no-open']);
    expect(line).toContain('no window was asked for');
    const answer = await fetch(address, { redirect: 'manual' });
    expect(answer.status).toBe(303);
    const cookie = answer.headers.getSetCookie()[0]?.split(';')[0] ?? '';
    const page = await fetch(new URL('/', address), { headers: { cookie } });
    expect(page.status).toBe(200);
    expect(await page.text()).toContain('<title>Kerfhand</title>');
    app.kill(signal);
    const [code] = await once(app, 'exit');
    expect(code).toBe(0);
    await expect(fetch(address)).rejects.toThrow();
  },
);

test('a browser that is named and not there is told of, and the host ends with what started it', async () => {
  const environment = { DISPLAY: ':99', CHROMIUM_PATH: '/nowhere/browser' };
  const { app, address, line } = await startApp(['--loopback'], environment);
  expect(line).toContain('in a browser (CHROMIUM_PATH names /nowhere/browser, which is not a program that can be run; not in');
  expect((await fetch(address, { redirect: 'manual' })).status).toBe(303);
  // Killed, it hands nothing on: the host sees the end of its input.
  app.kill('SIGKILL');
  await expect.poll(() => fetch(address).then(String, () => 'gone')).toBe('gone');
});
