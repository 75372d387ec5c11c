// The shell in Electron itself, as `npm start` opens it. It runs wherever Electron's binary is in place and a window can be shown;
// elsewhere it reports why it was skipped, and electron-shell.test.ts and electron-window.test.ts stand for it.
import { existsSync } from 'node:fs';
import path from 'node:path';
import { _electron, type ElectronApplication, type Page } from '@playwright/test';
import { beforeEach, describe, expect, onTestFinished, test } from 'vitest';
import { findElectron } from '../../electron/bootstrap/electron-binary.mjs';
import { hasDisplay } from '../../electron/bootstrap/loopback-window.mjs';
import { VERB_NAMES } from '../../electron/contract.ts';
import { temporaryFolder } from '../host/open-test-host.ts';
import { sampleBegin, sampleChunk } from '../host/sample-hand.ts';

const root = path.join(import.meta.dirname, '..', '..');

function whySkipped(): string | null {
  if (!findElectron()) return "Electron's binary is not in place";
  if (!hasDisplay()) return 'there is no display';
  if (process.getuid?.() === 0) return 'Electron does not run as root with its sandbox on';
  if (!existsSync(path.join(root, '.build', 'electron', 'main.mjs'))) return 'the shell is not built (npm run build)';
  return null;
}
const skipped = whySkipped();

async function launch(data: string): Promise<{ app: ElectronApplication; page: Page }> {
  const app = await _electron.launch({
    executablePath: findElectron() ?? '',
    args: [root],
    env: { ...process.env, KERFHAND_DATA: data } as Record<string, string>,
  });
  onTestFinished(() => app.close());
  return { app, page: await app.firstWindow() };
}

type Answer = { ok: boolean; reply?: Record<string, unknown>; error?: { code: string } };
const call = (page: Page, verb: string, request: unknown) =>
  page.evaluate(
    ([name, value]) => (Reflect.get(window, 'kerfhand') as Record<string, (request: unknown) => unknown>)[name]!(value),
    [verb, request] as const,
  ) as Promise<Answer>;

beforeEach(({ skip }) => {
  if (skipped) skip(skipped);
});

describe('in Electron itself', () => {
  test('the page is ours, sandboxed, with one function per verb, and a run outlasts the app', async () => {
    const data = temporaryFolder();
    const { app, page } = await launch(data);
    expect(page.url()).toBe('kerfhand://app/');
    expect(await page.evaluate(() => Object.keys(Reflect.get(window, 'kerfhand') ?? {}))).toEqual(VERB_NAMES);
    expect(await page.evaluate(() => ['require', 'process', 'Buffer'].filter((name) => name in window))).toEqual([]);
    const preferences = await app.evaluate(({ BrowserWindow }) => {
      const contents = BrowserWindow.getAllWindows()[0]!.webContents as unknown as {
        getLastWebPreferences(): Record<string, unknown>;
      };
      const { sandbox, contextIsolation, nodeIntegration } = contents.getLastWebPreferences();
      return { sandbox, contextIsolation, nodeIntegration };
    });
    expect(preferences).toEqual({ sandbox: true, contextIsolation: true, nodeIntegration: false });
    const { runId } = (await call(page, 'beginRun', sampleBegin())).reply as { runId: string };
    expect(await call(page, 'appendToRun', sampleChunk(runId, 0))).toMatchObject({ ok: true });
    await app.close();
    const again = await launch(data);
    expect(await call(again.page, 'getRun', { runId })).toMatchObject({
      ok: true,
      reply: { state: 'unfinished', tickCount: 60 },
    });
  });

  test('the window stays on our page and gets no permission but the pointer', async () => {
    const { app, page } = await launch(temporaryFolder());
    await page.evaluate(() => {
      open('https://evil.example/');
      location.href = 'https://evil.example/';
    });
    await expect.poll(() => app.windows().length).toBe(1);
    expect(page.url()).toBe('kerfhand://app/');
    expect(
      await page.evaluate(() =>
        navigator.mediaDevices.getUserMedia({ audio: true }).then(
          () => 'given',
          () => 'denied',
        ),
      ),
    ).toBe('denied');
    expect(
      await page.evaluate(() =>
        fetch('https://evil.example/').then(
          () => 'answered',
          () => 'refused',
        ),
      ),
    ).toBe('refused');
    expect(await page.evaluate(() => Notification.requestPermission())).toBe('denied');
  });

  test('a second app on the same records ends', async () => {
    const data = temporaryFolder();
    await launch(data);
    const second = await _electron.launch({
      executablePath: findElectron() ?? '',
      args: [root],
      env: { ...process.env, KERFHAND_DATA: data } as Record<string, string>,
    });
    await new Promise<void>((resolve) => second.once('close', () => resolve()));
    expect(second.windows()).toEqual([]);
  });
});
