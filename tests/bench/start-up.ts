import { chromium } from '@playwright/test';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { startHost, temporaryFolder } from '../end-to-end/start-host.ts';
import { type Spread, spreadOf } from './statistics.ts';

const STARTS = 5;

/** From starting the program to its address, on an empty folder and on one with records, and from the address to a page that can be used, ms. */
export interface StartUp {
  emptyFolderMs: Spread;
  keptFolderMs: Spread;
  pageMs: Spread;
}

export async function startUp(): Promise<StartUp> {
  const [empty, kept, page]: [number[], number[], number[]] = [[], [], []];
  const browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
  try {
    for (let n = 0; n < STARTS; n++) {
      const folder = temporaryFolder();
      for (const times of [empty, kept]) {
        const began = performance.now();
        const host = await startHost(folder.path);
        times.push(performance.now() - began);
        const tab = await browser.newPage();
        const asked = performance.now();
        await tab.goto(host.address);
        await tab.getByRole('button').first().waitFor();
        page.push(performance.now() - asked);
        await tab.close();
        await host.stop();
      }
      folder.remove();
    }
  } finally {
    await browser.close();
  }
  return { emptyFolderMs: spreadOf(empty), keptFolderMs: spreadOf(kept), pageMs: spreadOf(page) };
}
