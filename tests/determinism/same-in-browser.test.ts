import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from '@playwright/test';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { markedRun } from './marked-run.ts';
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
let mathInBrowser: Record<string, string>;

beforeAll(async () => {
  browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
  page = await browser.newPage();
  await page.addScriptTag({ content: await bundle() });
  mathInBrowser = await inPage((entry) => entry.mathSamples());
});

afterAll(() => browser?.close());

function inPage<Answer>(ask: (entry: PageEntry) => Answer): Promise<Answer> {
  return page.evaluate(`(${ask.toString()})(globalThis.determinism)`);
}

describe('in Chromium', () => {
  test.each(Object.entries(mathSamples()))('%s gives the bits that it gives in Node', (name, inNode) => {
    const [expected, told] = [inNode, mathInBrowser[name] ?? ''].map((bits) => bits.split(' '));
    const different = expected?.flatMap((word, index) => (word === told?.[index] ? [] : [Math.floor(index / 2)]));
    expect(different, 'numbers of the samples that differ').toEqual([]);
    expect(told?.length).toBe(expected?.length);
  });

  test('every run goes the way that it goes in Node, second by second', async () => {
    const inNode = scriptedRuns().map((run) => ({ name: run.name, trail: stepThrough(run) }));
    expect(await inPage((entry) => entry.trails())).toEqual(inNode);
  });

  test.each(['hanger-tab-straight-6', 'keel-saddle-curve-6'])(
    'the reference hand on %s cuts and is marked as in Node',
    async (id) => {
      const text = readFileSync(new URL(`../../scenarios/${id}.json`, import.meta.url), 'utf8');
      const inBrowser = await page.evaluate(`globalThis.determinism.markedRun(${JSON.stringify(text)}, 11)`);
      expect(inBrowser).toEqual(markedRun(text, 11));
    },
    120_000,
  );
});
