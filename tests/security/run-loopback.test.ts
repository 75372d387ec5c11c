import { spawn } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { type Browser, chromium } from '@playwright/test';
import { expect, onTestFinished, test } from 'vitest';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { temporaryFolder } from '../host/open-test-host.ts';
import { sampleBegin, sampleChunk } from '../host/sample-hand.ts';
import { writeTestPage } from './open-test-loopback.ts';

function startLoopback(
  folder: string,
  args: string[] = [],
  pageFolder = writeTestPage(folder),
  input: 'pipe' | 'ignore' = 'pipe',
) {
  const data = path.join(folder, 'data');
  const child = spawn(
    process.execPath,
    ['--disable-warning=ExperimentalWarning', path.join(import.meta.dirname, 'loopback-child.ts'), pageFolder, ...args],
    {
      env: { ...process.env, KERFHAND_DATA: data },
      stdio: [input, 'pipe', 'pipe'],
    },
  );
  const output = { out: '', err: '' };
  child.stdout?.setEncoding('utf8').on('data', (text) => {
    output.out += text;
  });
  child.stderr?.setEncoding('utf8').on('data', (text) => {
    output.err += text;
  });
  const ended = new Promise<number | NodeJS.Signals | null>((resolve) =>
    child.once('close', (code, signal) => resolve(signal ?? code)),
  );
  onTestFinished(async () => {
    if (child.exitCode === null) child.kill('SIGKILL');
    await ended;
  });
  const address = () =>
    expect
      .poll(() => output.out)
      .toMatch(/\n/)
      .then(() => output.out.match(/http:\S+/)?.[0] ?? '');
  return { child, output, ended, address, data };
}

async function openBrowser(): Promise<Browser> {
  const browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
  onTestFinished(() => browser.close());
  return browser;
}

test('prints exactly one line, serves one browser, ends cleanly at a signal given twice', async () => {
  const loopback = startLoopback(temporaryFolder());
  const address = await loopback.address();
  expect(loopback.output.out).toMatch(/^Kerfhand is at http:\/\/127\.0\.0\.1:\d+\/\?token=[\w-]{43}\n$/);
  const browser = await openBrowser();
  const page = await (await browser.newContext()).newPage();
  await page.goto(address);
  await expect.poll(() => page.title()).toBe('Kerfhand runs');
  expect(page.url()).toBe(`${new URL(address).origin}/`);
  expect(await page.evaluate(() => document.cookie)).toBe('');
  expect(await page.evaluate(() => document.documentElement.dataset.evalRan)).toBe('no');
  const call = (verb: string, request: unknown) =>
    page.evaluate(
      async ([name, value]) => {
        const reply = await fetch(`/call/${name}`, {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(value),
        });
        return await reply.json();
      },
      [verb, request] as const,
    );
  const begun = await call('beginRun', sampleBegin());
  expect(await call('appendToRun', sampleChunk(begun.reply.runId, 0))).toEqual({
    ok: true,
    reply: { tickCount: 60, nextSequence: 1 },
  });

  // Another site in the same browser, and another person's browser, get nowhere.
  const elsewhere = await (await browser.newContext()).newPage();
  expect((await elsewhere.goto(address))?.status()).toBe(403);
  const evil = await page.context().newPage();
  await evil.route('https://evil.example/**', (route) =>
    route.fulfill({ contentType: 'text/html', body: '<title>evil</title>' }),
  );
  await evil.goto('https://evil.example/');
  const stolen = await evil.evaluate(
    (url) =>
      fetch(url, { method: 'POST', credentials: 'include', headers: { 'content-type': 'text/plain' }, body: '{}' }).then(
        () => 'answered',
        () => 'refused',
      ),
    `${new URL(address).origin}/call/getSession`,
  );
  expect(stolen).toBe('refused');

  loopback.child.kill('SIGINT');
  loopback.child.kill('SIGINT');
  expect(await loopback.ended).toBe(0);
  expect(loopback.output.err).toBe('');
  expect(readdirSync(loopback.data).toSorted()).toEqual(['lock.db', 'records.db', 'records.ledger-tail']);
});

test('the end of its input ends it cleanly where that was asked for; a signal does so while its input is open', async () => {
  const held = startLoopback(temporaryFolder(), ['--until-input-ends']);
  await held.address();
  held.child.stdin?.end();
  expect(await held.ended).toBe(0);
  expect(held.output.err).toBe('');
  expect(readdirSync(held.data)).not.toContain('records.db-wal');
  const signalled = startLoopback(temporaryFolder(), ['--until-input-ends']);
  await signalled.address();
  signalled.child.kill('SIGTERM');
  expect(await signalled.ended).toBe(0);
  const nothing = startLoopback(temporaryFolder(), ['--until-input-ends'], undefined, 'ignore');
  expect([await nothing.ended, nothing.output.err]).toEqual([0, '']);
});

test('a second one on the same records gets one sentence and ends with 1', async () => {
  const folder = temporaryFolder();
  const first = startLoopback(folder);
  await first.address();
  const second = startLoopback(folder);
  expect(await second.ended).toBe(1);
  expect(second.output.out).toBe('');
  expect(second.output.err).toMatch(
    /^Kerfhand is already open with the records in .* \(process \d+\); close it first, or set KERFHAND_DATA to another folder\.\n$/,
  );
  first.child.kill('SIGTERM');
  expect(await first.ended).toBe(0);
});

test('bad arguments, a taken port and a missing page are one sentence each', async () => {
  const folder = temporaryFolder();
  const first = startLoopback(folder);
  const { port } = new URL(await first.address());
  const cases: [string[], string | undefined, RegExp][] = [
    [['--port', 'many'], undefined, /^--port must be a number from 0 to 65535 and is "many"\.\n$/],
    [['--port', '70000'], undefined, /^--port must be a number from 0 to 65535 and is "70000"\.\n$/],
    [['--prot', '1'], undefined, /^Unknown option '--prot'.*Usage: loopback \[--port N\] \[--until-input-ends\]\n$/s],
    [['--port', port], undefined, /^That port is in use by another program; choose another or leave --port out\.\n$/],
    [[], path.join(folder, 'nowhere'), /^The page is not built \(no index\.html in .*\); npm start builds it\.\n$/],
  ];
  const ends = cases.map(async ([args, page, expected]) => {
    const loopback = startLoopback(temporaryFolder(), args, page);
    expect(await loopback.ended).toBe(1);
    expect(loopback.output.err).toMatch(expected);
    expect(loopback.output.out).toBe('');
    expect(existsSync(path.join(loopback.data, 'owner.json'))).toBe(false);
  });
  await Promise.all(ends);
});
