// main.ts and preload.ts as they are, on a stand-in for Electron with a real Chromium page behind the window.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type Browser, chromium } from '@playwright/test';
import { afterAll, beforeAll, beforeEach, describe, expect, onTestFinished, test, vi } from 'vitest';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { VERB_NAMES } from '../../electron/contract.ts';
import { openTestHost, temporaryFolder } from '../host/open-test-host.ts';
import { SCENARIOS, sampleBegin, sampleChunk, sampleFinish } from '../host/sample-hand.ts';
import { writeTestPage } from './open-test-loopback.ts';
import { createStandInElectron, type StandInOptions } from './stand-in-electron.ts';

const shared = vi.hoisted(() => ({ electron: {} as Record<string, unknown>, paths: {} as Record<string, string> }));
vi.mock('electron', () => shared.electron);
vi.mock('../../electron/host/app-paths.ts', () => ({ findAppPaths: () => shared.paths }));

type Answer = { ok: boolean; reply?: Record<string, unknown>; error?: { code: string; message: string } };

let browser: Browser;
beforeAll(async () => {
  browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
});
afterAll(() => browser.close());
beforeEach(() => {
  vi.resetModules();
  vi.unstubAllEnvs();
});

/** Starts main.ts; gives its window's page where it opened one. */
async function startShell(folder: string, options: Partial<StandInOptions> = {}) {
  const standIn = createStandInElectron({
    browser,
    runPreload: async () => {
      await import('../../electron/preload.ts');
    },
    ...options,
  });
  Object.assign(shared.electron, standIn.modules);
  Object.assign(shared.paths, { version: '0.1.0', scenariosFolder: SCENARIOS, pageFolder: writeTestPage(folder) });
  vi.stubEnv('KERFHAND_DATA', path.join(folder, 'data'));
  await import('../../electron/main.ts');
  onTestFinished(() => quit(standIn));
  await vi.waitFor(() => {
    if (standIn.record.windows.length + standIn.record.errors.length === 0 && !standIn.record.quitAsked)
      throw new Error('not started');
  });
  const [window] = standIn.record.windows;
  await window?.loaded;
  return { ...standIn, window, page: window?.webContents.page ?? null };
}

/** As Electron ends: 'will-quit', prevented until the records are closed, then exit. */
async function quit(standIn: ReturnType<typeof createStandInElectron>): Promise<void> {
  const event = new standIn.PreventableEvent();
  standIn.app.emit('will-quit', event);
  if (event.prevented) await vi.waitFor(() => expect(standIn.record.exitCode).not.toBeNull());
  for (const window of standIn.record.windows) await window.webContents.page?.context().close();
}

async function openPage(folder = temporaryFolder(), options: Partial<StandInOptions> = {}) {
  const shell = await startShell(folder, options);
  if (!shell.page || !shell.window) throw new Error(`no window: ${shell.record.errors}`);
  const { page } = shell;
  const call = (verb: string, request: unknown) =>
    page.evaluate(
      ([name, value]) => (Reflect.get(window, 'kerfhand') as Record<string, (request: unknown) => unknown>)[name]!(value),
      [verb, request] as const,
    ) as Promise<Answer>;
  return { ...shell, page, window: shell.window, call };
}

describe('start-up', () => {
  test('opens one sandboxed, isolated window on our own page, which runs under the strict policy', async () => {
    const { record, page, window } = await openPage();
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
    const second = await startShell(temporaryFolder(), { singleInstance: false });
    expect([second.record.quitAsked, second.record.windows.length]).toEqual([true, 0]);
    vi.resetModules();
    const first = await openPage();
    first.app.emit('second-instance');
    expect(first.window.focused).toBe(1);
  });

  test('records that another host owns end the start with the sentence', async () => {
    const folder = temporaryFolder();
    await openTestHost({ folder: path.join(folder, 'data') });
    const { record } = await startShell(folder);
    expect(record.windows).toEqual([]);
    expect(record.errors[0]).toMatch(
      /^Kerfhand cannot start: Kerfhand is already open with the records in .*data \(process \d+\)/,
    );
    expect(record.exitCode).toBe(1);
  });
});

describe('calls', () => {
  test('the page gets one function per verb and nothing else', async () => {
    const { page, record } = await openPage();
    expect(Object.keys(record.exposed)).toEqual(['kerfhand']);
    expect(await page.evaluate(() => Object.keys(Reflect.get(window, 'kerfhand') ?? {}))).toEqual(VERB_NAMES);
    expect(await page.evaluate(() => ['require', 'process', 'ipcRenderer', 'Buffer'].filter((name) => name in window))).toEqual(
      [],
    );
  });

  test('a run is cut, exported to the place that was chosen and still there after quitting', async () => {
    const folder = temporaryFolder();
    const saveTo = path.join(folder, 'chosen.kerfhand-run');
    const { call, ...shell } = await openPage(folder, { saveTo });
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
    const { call } = await openPage();
    const { runId } = (await call('beginRun', sampleBegin())).reply as { runId: string };
    await call('appendToRun', sampleChunk(runId, 0));
    expect(await call('exportRun', { runId })).toEqual({ ok: true, reply: { outcome: 'cancelled' } });
  });

  test('every payload is parsed: what the contract does not take is refused', async () => {
    const { call } = await openPage();
    for (const verb of VERB_NAMES)
      expect(await call(verb, 'nonsense')).toMatchObject({ ok: false, error: { code: 'bad-request' } });
  });

  test('from a frame inside the page, from another window, or once the page is another, are refused', async () => {
    const { page, ipcHandlers, window } = await openPage();
    const invoke = ['kerfhand:call', 'getSession', {}] as const;
    const forbidden = { ok: false, error: { code: 'forbidden', message: 'Only the Kerfhand page may call the host.' } };
    expect([...ipcHandlers.keys()]).toEqual(['kerfhand:call']);
    const raw = (values: readonly unknown[]) =>
      (Reflect.get(globalThis, 'standInInvoke') as (...values: unknown[]) => Promise<Answer>)(...values);
    expect(await page.evaluate(raw, invoke)).toMatchObject({ ok: true });

    await page.evaluate(() => document.body.append(document.createElement('iframe')));
    await expect.poll(() => page.frames().length).toBe(2);
    expect(await page.frames()[1]!.evaluate(raw, invoke)).toEqual(forbidden);

    const handler = ipcHandlers.get('kerfhand:call')!;
    const sender = window.webContents;
    const senderFrame = sender.mainFrame!;
    expect(await handler({ sender, senderFrame }, 'getSession', {})).toMatchObject({ ok: true });
    expect(await handler({ sender: {}, senderFrame }, 'getSession', {})).toEqual(forbidden);
    expect(await handler({ sender, senderFrame: null }, 'getSession', {})).toEqual(forbidden);
    expect(await handler({ sender, senderFrame: { ...senderFrame } }, 'getSession', {})).toEqual(forbidden);
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

describe('the window', () => {
  test('stays on our page: links, scripts, frames and new windows lead nowhere', async () => {
    const { page, window } = await openPage();
    await page.evaluate(() => {
      location.href = 'https://evil.example/';
    });
    await page.evaluate(() => {
      const link = document.createElement('a');
      link.href = 'kerfhand-other://x/';
      link.id = 'away';
      link.textContent = 'away';
      document.body.append(link);
    });
    await page.evaluate(() => {
      const frame = document.createElement('iframe');
      frame.src = 'https://evil.example/frame';
      document.body.append(frame);
    });
    const opened = await page.evaluate(() => {
      open('https://evil.example/popup');
      return true;
    });
    expect(opened).toBe(true);
    await expect.poll(() => page.context().pages().length).toBe(1);
    expect(window.webContents.getURL()).toBe('kerfhand://app/');
    expect(
      page
        .frames()
        .map((frame) => frame.url())
        .filter((url) => url.includes('evil')),
    ).toEqual([]);
    expect(window.webContents.openHandler({ url: 'kerfhand://app/' })).toEqual({ action: 'deny' });
  });

  test('may lock the pointer and nothing else; no download, device or embedded view', async () => {
    const { session, window, PreventableEvent } = await openPage();
    const { handlers } = session;
    const contents = window.webContents;
    const asked = (permission: string, requestingUrl: string) => {
      let answer: boolean | null = null;
      (handlers.request as (...values: unknown[]) => void)(
        contents,
        permission,
        (given: boolean) => {
          answer = given;
        },
        { requestingUrl },
      );
      return answer;
    };
    const checked = (permission: string) =>
      (handlers.check as (...values: unknown[]) => boolean)(contents, permission, 'kerfhand://app', {});
    const others = [
      'media',
      'geolocation',
      'notifications',
      'midi',
      'midiSysex',
      'fullscreen',
      'openExternal',
      'clipboard-read',
      'hid',
      'serial',
      'usb',
      'display-capture',
      'keyboardLock',
      'idle-detection',
      'window-management',
      'fileSystem',
      'unknown',
    ];
    for (const permission of others)
      expect([permission, asked(permission, 'kerfhand://app/'), checked(permission)]).toEqual([permission, false, false]);
    expect([asked('pointerLock', 'kerfhand://app/'), checked('pointerLock')]).toEqual([true, true]);
    expect(asked('pointerLock', 'https://evil.example/')).toBe(false);
    expect((handlers.check as (...values: unknown[]) => boolean)(null, 'pointerLock', 'kerfhand://app', {})).toBe(false);
    expect((handlers.device as () => boolean)()).toBe(false);
    for (const [emitter, name] of [
      [session, 'will-download'],
      [contents, 'will-attach-webview'],
      [contents, 'will-navigate'],
      [contents, 'will-frame-navigate'],
      [contents, 'will-redirect'],
    ] as const) {
      const event = new PreventableEvent();
      emitter.emit(name, event);
      expect([name, event.prevented]).toEqual([name, true]);
    }
    for (const url of ['https://a.example/', 'http://127.0.0.1/', 'ws://a.example/', 'file:///etc/passwd'])
      expect([url, session.cancels(url)]).toEqual([url, true]);
  });
});
