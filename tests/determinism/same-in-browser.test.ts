import { readFileSync } from 'node:fs';
import { type Browser, chromium, type Page } from '@playwright/test';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { coreForBrowser } from './core-for-browser.ts';
import { markedRun } from './marked-run.ts';
import { mathSamples } from './math-samples.ts';
import type { PageEntry } from './page-entry.ts';
import { scriptedRuns } from './scripted-runs.ts';
import { stepThrough } from './step-through.ts';

let browser: Browser;
let page: Page;
let mathInBrowser: Record<string, string>;

beforeAll(async () => {
  browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
  page = await browser.newPage();
  await page.addScriptTag({ content: await coreForBrowser(new URL('./page-entry.ts', import.meta.url)) });
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
