// npm run prove:determinism: random runs across all shipped drills, each cut five ways; the digests of every second must agree.
import { chromium } from '@playwright/test';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { encodeRunFile } from '../../sim-core/index.ts';
import { coreForBrowser } from '../determinism/core-for-browser.ts';
import { type Digests, savedAndRestored, shownOnDisplay, straightThrough } from './determinism-run.ts';
import { campaignOptions, keepEvidence } from './evidence.ts';
import { randomRun, shippedDrills } from './random-run.ts';

const SEED = 20261128;
const RUNS = 1000;
const QUICK_RUNS = 20;

const options = campaignOptions(60);
const asked = options.quick ? QUICK_RUNS : RUNS;
const until = Date.now() + options.minutes * 60_000;
const drills = shippedDrills();
const random = { counter: SEED };
const different: Record<'node' | 'savedAndRestored' | 'displayRate' | 'chromium', string[]> = {
  node: [],
  savedAndRestored: [],
  displayRate: [],
  chromium: [],
};
const used = new Set<string>();
let [runs, seconds] = [0, 0];

const browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
try {
  const page = await browser.newPage();
  await page.addScriptTag({ content: await coreForBrowser(new URL('./determinism-page.ts', import.meta.url)) });
  for (; runs < asked && Date.now() < until; runs += 1) {
    const shipped = drills[runs % drills.length]!;
    const run = randomRun(shipped, random);
    const text = encodeRunFile(run);
    const recorded: Digests = [...run.digests, run.finalDigest ?? ''];
    // The browser cuts on a processor of its own meanwhile.
    const inChromium = page.evaluate(
      (text) => (globalThis as unknown as { straightThrough(text: string): Digests }).straightThrough(text),
      text,
    );
    const again: Record<keyof typeof different, Digests> = {
      node: straightThrough(text),
      savedAndRestored: savedAndRestored(text, random),
      displayRate: shownOnDisplay(text, random),
      chromium: await inChromium,
    };
    for (const way of Object.keys(different) as (keyof typeof different)[]) {
      const at = recorded.findIndex((digest, second) => digest !== again[way][second]);
      if (at < 0 && recorded.length === again[way].length) continue;
      different[way].push(`run ${runs} on ${shipped.id}: from second ${at + 1} of ${recorded.length - 1}`);
    }
    used.add(shipped.id);
    seconds += run.digests.length;
  }
} finally {
  await browser.close();
}

const differences = Object.values(different).flat().length;
keepEvidence(
  {
    campaign: 'determinism',
    seed: SEED,
    asked: { runs: asked, drills: drills.length, differences: 0 },
    got: { runs, drills: used.size, secondsOfCutting: seconds, differences, different },
    holds: runs === asked && differences === 0,
    notes: [
      'Each run was recorded from a scripted hand with random habits, most with a random fault, then cut again from its file: in Node, in Node saved and restored at four random ticks, in Node by the clock of the bench at 20 to 240 frames a second with stalls of up to two seconds and the fields read at each frame, and in Chromium.',
      'All engines ran on one kind of processor.',
    ],
  },
  `${runs} of ${asked} runs on ${used.size} drills, ${seconds} s of cutting: ${differences} differences`,
  options,
);
