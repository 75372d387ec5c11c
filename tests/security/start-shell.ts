import path from 'node:path';
import { type Browser, chromium } from '@playwright/test';
import { afterAll, beforeAll, beforeEach, expect, onTestFinished, vi } from 'vitest';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { temporaryFolder } from '../host/open-test-host.ts';
import { SCENARIOS } from '../host/sample-hand.ts';
import { writeTestPage } from './open-test-loopback.ts';
import { createStandInElectron, type StandInOptions } from './stand-in-electron.ts';

/** What the mocks of a test file hand to main.ts and preload.ts; see `vi.mock` there. */
export interface Mocked {
  electron: Record<string, unknown>;
  paths: Record<string, string>;
}

export type Answer = { ok: boolean; reply?: Record<string, unknown>; error?: { code: string; message: string } };

let browser: Browser;

/** To be called once in a test file: a browser for all its tests, and main.ts anew for each. */
export function shellForEachTest(): void {
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
  });
  afterAll(() => browser.close());
  beforeEach(() => {
    vi.resetModules();
    vi.unstubAllEnvs();
  });
}

/** Starts main.ts; gives its window's page where it opened one. */
export async function startShell(shared: Mocked, folder: string, options: Partial<StandInOptions> = {}) {
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
  const { record } = standIn;
  await expect.poll(() => record.windows.length + record.errors.length > 0 || record.quitAsked).toBe(true);
  const [window] = standIn.record.windows;
  await window?.loaded;
  return { ...standIn, window, page: window?.webContents.page ?? null };
}

/** As Electron ends: 'will-quit', prevented until the records are closed, then exit. */
export async function quit(standIn: ReturnType<typeof createStandInElectron>): Promise<void> {
  const event = new standIn.PreventableEvent();
  standIn.app.emit('will-quit', event);
  if (event.prevented) await expect.poll(() => standIn.record.exitCode).not.toBeNull();
  for (const window of standIn.record.windows) await window.webContents.page?.context().close();
}

/** The same, with the page of its window and calls as that makes them. */
export async function openPage(shared: Mocked, folder = temporaryFolder(), options: Partial<StandInOptions> = {}) {
  const shell = await startShell(shared, folder, options);
  if (!shell.page || !shell.window) throw new Error(`no window: ${shell.record.errors}`);
  const { page } = shell;
  const call = (verb: string, request: unknown) =>
    page.evaluate(
      ([name, value]) => (Reflect.get(window, 'kerfhand') as Record<string, (request: unknown) => unknown>)[name]!(value),
      [verb, request] as const,
    ) as Promise<Answer>;
  return { ...shell, page, window: shell.window, call };
}
