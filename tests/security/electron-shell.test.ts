// main.ts and preload.ts as they are, on a stand-in for Electron with a real Chromium page behind the window.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { VERB_NAMES } from '../../electron/contract.ts';
import { openTestHost, temporaryFolder } from '../host/open-test-host.ts';
import { sampleBegin, sampleChunk, sampleFinish } from '../host/sample-hand.ts';
import { type Answer, openPage, quit, shellForEachTest, startShell } from './start-shell.ts';

const shared = vi.hoisted(() => ({ electron: {} as Record<string, unknown>, paths: {} as Record<string, string> }));
vi.mock('electron', () => shared.electron);
vi.mock('../../electron/host/app-paths.ts', () => ({ findAppPaths: () => shared.paths }));
shellForEachTest();

describe('start-up', () => {
  test('opens one sandboxed, isolated window on our own page, which runs under the strict policy', async () => {
    const { record, page, window } = await openPage(shared);
    expect(record.sandboxed).toBe(true);
    expect(record.errors).toEqual([]);
    expect(
      record.schemes.map(({ scheme, privileges }) => [scheme, privileges.standard, privileges.secure, privileges.bypassCSP]),
    ).toEqual([['kerfhand', true, true, undefined]]);
    expect(record.windows).toHaveLength(1);
    expect(window.options.webPreferences).toMatchObject({
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
    });
    expect(path.basename(String(window.options.webPreferences.preload))).toBe('preload.cjs');
    expect(window.webContents.getURL()).toBe('kerfhand://app/');
    await expect.poll(() => page.title()).toBe('Kerfhand runs');
    const outcome = await page.evaluate(async () => {
      const script = document.createElement('script');
      script.textContent = 'window.inlineRan = true';
      document.head.append(script);
      const fetched = await fetch('https://elsewhere.invalid/').then(
        () => true,
        () => false,
      );
      return { inlineRan: 'inlineRan' in window, evalRan: document.documentElement.dataset.evalRan, fetched };
    });
    expect(outcome).toEqual({ inlineRan: false, evalRan: 'no', fetched: false });
  });

  test('a second instance goes away and the first comes to the front', async () => {
    const second = await startShell(shared, temporaryFolder(), { singleInstance: false });
    expect([second.record.quitAsked, second.record.windows.length]).toEqual([true, 0]);
    vi.resetModules();
    const first = await openPage(shared);
    first.app.emit('second-instance');
    expect(first.window.focused).toBe(1);
  });

  test('records that another host owns end the start with the sentence', async () => {
    const folder = temporaryFolder();
    await openTestHost({ folder: path.join(folder, 'data') });
    const { record } = await startShell(shared, folder);
    expect(record.windows).toEqual([]);
    expect(record.errors[0]).toMatch(
      /^Kerfhand cannot start: Kerfhand is already open with the records in .*data \(process \d+\)/,
    );
    expect(record.exitCode).toBe(1);
  });
});

describe('calls', () => {
  test('the page gets one function per verb and nothing else', async () => {
    const { page, record } = await openPage(shared);
    expect(Object.keys(record.exposed)).toEqual(['kerfhand']);
    expect(await page.evaluate(() => Object.keys(Reflect.get(window, 'kerfhand') ?? {}))).toEqual(VERB_NAMES);
    expect(await page.evaluate(() => ['require', 'process', 'ipcRenderer', 'Buffer'].filter((name) => name in window))).toEqual(
      [],
    );
  });

  test('a run is cut, exported to the place that was chosen and still there after quitting', async () => {
    const folder = temporaryFolder();
    const saveTo = path.join(folder, 'chosen.kerfhand-run');
    const { call, ...shell } = await openPage(shared, folder, { saveTo });
    expect(await call('getSession', {})).toMatchObject({ ok: true, reply: { shell: 'electron' } });
    const { runId } = (await call('beginRun', sampleBegin())).reply as { runId: string };
    expect(await call('appendToRun', sampleChunk(runId, 0))).toMatchObject({ ok: true });
    expect(await call('finishRun', sampleFinish(runId, 60))).toMatchObject({ ok: true, reply: { state: 'finished' } });
    expect(await call('exportRun', { runId })).toEqual({
      ok: true,
      reply: { outcome: 'saved', fileName: 'chosen.kerfhand-run' },
    });
    expect(readFileSync(saveTo, 'utf8').split('\n')).toHaveLength(3);
    await quit(shell);
    const host = await openTestHost({ folder: path.join(folder, 'data') });
    expect((await host.ask('listRuns', {})).runs.map((run) => [run.id, run.state])).toEqual([[runId, 'finished']]);
  });

  test('a save that is cancelled says so', async () => {
    const { call } = await openPage(shared);
    const { runId } = (await call('beginRun', sampleBegin())).reply as { runId: string };
    await call('appendToRun', sampleChunk(runId, 0));
    expect(await call('exportRun', { runId })).toEqual({ ok: true, reply: { outcome: 'cancelled' } });
  });

  test('every payload is parsed: what the contract does not take is refused', async () => {
    const { call } = await openPage(shared);
    for (const verb of VERB_NAMES)
      expect(await call(verb, 'nonsense')).toMatchObject({ ok: false, error: { code: 'bad-request' } });
  });

  test('from a frame inside the page, from another window, or once the page is another, are refused', async () => {
    const { page, ipcHandlers, window } = await openPage(shared);
    const invoke = ['kerfhand:call', 'getSession', {}] as const;
    const forbidden = { ok: false, error: { code: 'forbidden', message: 'Only the Kerfhand page may call the host.' } };
    expect([...ipcHandlers.keys()]).toEqual(['kerfhand:call']);
    const raw = (values: readonly unknown[]) =>
      (Reflect.get(globalThis, 'standInInvoke') as (...values: unknown[]) => Promise<Answer>)(...values);
    expect(await page.evaluate(raw, invoke)).toMatchObject({ ok: true });

    await page.evaluate(() => document.body.append(document.createElement('iframe')));
    await expect.poll(() => page.frames().length).toBe(2);
    expect(await page.frames()[1]!.evaluate(raw, invoke)).toEqual(forbidden);
    await page.evaluate(() => {
      for (const [name, value] of [
        ['srcdoc', '<p>inside</p>'],
        ['src', 'data:text/html,<p>inside</p>'],
        ['src', '/'],
      ] as const) {
        const frame = document.createElement('iframe');
        frame.setAttribute(name, value);
        document.body.append(frame);
      }
    });
    await expect.poll(() => page.frames().length).toBe(5);
    const inner = await Promise.all(
      page
        .frames()
        .slice(2)
        .map((frame) => frame.evaluate(raw, invoke).catch(() => forbidden)),
    );
    expect(inner).toEqual([forbidden, forbidden, forbidden]);

    const handler = ipcHandlers.get('kerfhand:call')!;
    const sender = window.webContents;
    const senderFrame = sender.mainFrame!;
    expect(await handler({ sender, senderFrame }, 'getSession', {})).toMatchObject({ ok: true });
    expect(await handler({ sender: {}, senderFrame }, 'getSession', {})).toEqual(forbidden);
    expect(await handler({ sender, senderFrame: null }, 'getSession', {})).toEqual(forbidden);
    expect(await handler({ sender, senderFrame: { ...senderFrame } }, 'getSession', {})).toEqual(forbidden);
    const below = { url: 'kerfhand://app/', parent: senderFrame };
    expect(await handler({ sender, senderFrame: below }, 'getSession', {})).toEqual(forbidden);
    for (const verb of ['__proto__', 'constructor', 'close', '', 7, null, { toString: 'getSession' }, ['getSession']])
      expect(await handler({ sender, senderFrame }, verb, {})).toMatchObject({ ok: false, error: { code: 'bad-request' } });
    for (const url of [
      'https://evil.example/',
      'kerfhand://other/',
      'kerfhand://app.evil.example/',
      'file:///etc/passwd',
      'about:blank',
      '',
    ]) {
      vi.spyOn(senderFrame, 'url', 'get').mockReturnValueOnce(url);
      expect([url, await handler({ sender, senderFrame }, 'getSession', {})]).toEqual([url, forbidden]);
    }
  });
});
