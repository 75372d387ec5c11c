// What a page can do in the window of the shell, and what any contents may: on the stand-in of electron-shell.test.ts.
import { EventEmitter } from 'node:events';
import { describe, expect, test, vi } from 'vitest';
import { openPage, shellForEachTest } from './start-shell.ts';

const shared = vi.hoisted(() => ({ electron: {} as Record<string, unknown>, paths: {} as Record<string, string> }));
vi.mock('electron', () => shared.electron);
vi.mock('../../electron/host/app-paths.ts', () => ({ findAppPaths: () => shared.paths }));
shellForEachTest();

const download = (address: string, fileName: string) => ({ getURL: () => address, getFilename: () => fileName });

describe('the window', () => {
  test('stays on our page: links, scripts, frames and new windows lead nowhere', async () => {
    const { page, window } = await openPage(shared);
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

  test('is not led away by anything that a page can do, and opens no other', async () => {
    const { page, window, record } = await openPage(shared);
    const ways: ((to: string) => void)[] = [
      (to) => location.assign(to),
      (to) => location.replace(to),
      (to) => void open(to, '_self'),
      (to) => void open(to, '_blank', 'noopener'),
      (to) => void open(to, 'named'),
      (to) => {
        const link = Object.assign(document.createElement('a'), { href: to, target: '_blank', download: 'a' });
        document.body.append(link);
        link.click();
      },
      (to) => {
        const form = Object.assign(document.createElement('form'), { action: to, method: 'post' });
        document.body.append(form);
        form.submit();
      },
      (to) => {
        const refresh = Object.assign(document.createElement('meta'), { httpEquiv: 'refresh', content: `0;url=${to}` });
        document.head.append(refresh);
      },
    ];
    const places = [
      'https://evil.example/',
      'file:///etc/passwd',
      'data:text/html,evil',
      'kerfhand-other://app/',
      'javascript:top.evil=1',
    ];
    for (const way of ways)
      for (const to of places) await page.evaluate(`try { (${String(way)})(${JSON.stringify(to)}) } catch {}`);
    await expect.poll(() => page.context().pages().length).toBe(1);
    expect(window.webContents.getURL()).toBe('kerfhand://app/');
    expect(await page.evaluate(() => 'evil' in window)).toBe(false);
    expect(record.windows).toHaveLength(1);
    for (const url of [...places, 'about:blank', 'blob:kerfhand://app/a', 'kerfhand://app/'])
      expect([url, window.webContents.openHandler({ url })]).toEqual([url, { action: 'deny' }]);
    await expect.poll(() => page.title()).toBe('Kerfhand runs');
  });

  test('keeps every other contents to the same rules, whoever makes them', async () => {
    const { app, PreventableEvent } = await openPage(shared);
    const handlers: unknown[] = [];
    const contents = Object.assign(new EventEmitter(), { setWindowOpenHandler: (handler: unknown) => handlers.push(handler) });
    app.emit('web-contents-created', {}, contents);
    for (const name of ['will-navigate', 'will-frame-navigate', 'will-redirect', 'will-attach-webview']) {
      const event = new PreventableEvent();
      contents.emit(name, event, { preload: 'file:///evil.js' }, { src: 'https://evil.example/' });
      expect([name, event.prevented]).toEqual([name, true]);
    }
    expect((handlers as (() => unknown)[]).map((handler) => handler())).toEqual([{ action: 'deny' }]);
  });

  test('may lock the pointer and nothing else; no device or embedded view, nothing downloaded from an address', async () => {
    const { session, window, PreventableEvent } = await openPage(shared);
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
    for (const [emitter, name, ...told] of [
      [session, 'will-download', download('https://evil.example/a.kerfhand-run', 'a.kerfhand-run')],
      [contents, 'will-attach-webview'],
      [contents, 'will-navigate'],
      [contents, 'will-frame-navigate'],
      [contents, 'will-redirect'],
    ] as const) {
      const event = new PreventableEvent();
      emitter.emit(name, event, ...told);
      expect([name, event.prevented]).toEqual([name, true]);
    }
    for (const url of ['https://a.example/', 'http://127.0.0.1/', 'ws://a.example/', 'file:///etc/passwd'])
      expect([url, session.cancels(url)]).toEqual([url, true]);
  });

  test('hands out the file of a run that its page made, where the user chooses, and no other download', async () => {
    const { session, PreventableEvent } = await openPage(shared);
    const places: string[] = [];
    const goesOn = (address: string, fileName: string) => {
      const event = new PreventableEvent();
      const setSavePath = (place: string) => places.push(place);
      session.emit('will-download', event, { ...download(address, fileName), setSavePath });
      return !event.prevented;
    };
    const own = 'blob:kerfhand://app/6c2c4f0e-7d1b-4d7f-9a53-0d7c1f3b5a10';
    const run = 'hanger-tab-straight-6-20310320-105900.kerfhand-run';
    expect(goesOn(own, run)).toBe(true);
    // Without a place of ours Electron opens its own dialog.
    expect(places).toEqual([]);
    for (const name of ['run.exe', 'run.kerfhand-run.exe', 'kerfhand-run', 'backup.kerfhand-backup', ''])
      expect([name, goesOn(own, name)]).toEqual([name, false]);
    for (const address of [
      'kerfhand://app/index.html',
      'https://evil.example/run',
      'file:///etc/passwd',
      'data:application/octet-stream,evil',
      'blob:https://evil.example/6c2c4f0e',
      'blob:kerfhand://app.evil.example/6c2c4f0e',
      'blob:kerfhand://app@evil.example/6c2c4f0e',
      'blob:kerfhand://other/6c2c4f0e',
      'blob:null/6c2c4f0e',
      'blob:',
      '',
    ])
      expect([address, goesOn(address, run)]).toEqual([address, false]);
  });
});
