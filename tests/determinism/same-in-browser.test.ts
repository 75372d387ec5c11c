import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from '@playwright/test';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { mathSamples } from './math-samples.ts';
import type { PageEntry } from './page-entry.ts';
import { scriptedRuns } from './scripted-runs.ts';
import { stepThrough } from './step-through.ts';

/** The core and the runs as one script, bundled and minified as the page's own bundle is. */
async function bundle(): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: true,
      target: 'es2022',
      lib: { entry: fileURLToPath(new URL('./page-entry.ts', import.meta.url)), formats: ['iife'], name: 'bundle' },
    },
  });
  const [result] = Array.isArray(built) ? built : [built];
  if (!result || !('output' in result)) throw new Error('The bundle for the browser was not built.');
  return result.output[0].code;
}

let browser: Browser;
let page: Page;

beforeAll(async () => {
  browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
  page = await browser.newPage();
  await page.addScriptTag({ content: await bundle() });
});

afterAll(() => browser?.close());

function inPage<Answer>(ask: (entry: PageEntry) => Answer): Promise<Answer> {
  return page.evaluate(`(${ask.toString()})(globalThis.determinism)`);
}

describe('in Chromium', () => {
  test.each(Object.entries(mathSamples()))('%s gives the bits that it gives in Node', async (name, inNode) => {
    const inBrowser = (await inPage((entry) => entry.mathSamples()))[name] ?? '';
    const words = inBrowser.split(' ');
    const different = inNode.split(' ').flatMap((word, index) => (word === words[index] ? [] : [Math.floor(index / 2)]));
    expect(different, 'numbers of the samples that differ').toEqual([]);
    expect(words.length).toBe(inNode.split(' ').length);
  });

  test('every run goes the way that it goes in Node, second by second', async () => {
    const inNode = scriptedRuns().map((run) => ({ name: run.name, trail: stepThrough(run) }));
    expect(await inPage((entry) => entry.trails())).toEqual(inNode);
  });
});
