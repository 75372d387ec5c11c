import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from '@playwright/test';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { createSoundFollower } from '../../renderer/sound/sound-follower.ts';
import { silence, soundOf, soundRig } from '../../renderer/sound/sound-of.ts';
import {
  ARC_STATES,
  type ArcStateName,
  type FaultHandId,
  faultHand,
  parseDrill,
  referenceHand,
  runHand,
  SAMPLE_FIELDS,
  type Sample,
  setupFromDrill,
  TICK_HZ,
  windowOfDrill,
} from '../../sim-core/index.ts';
import type { Asked, Heard, SoundEntry, Stretch } from './sound-page-entry.ts';

/*
 * What comes out of the graph, rendered by Chromium's own nodes. The levels are limits that the bench keeps at full volume, stated
 * here and nowhere loosened: peak at most -6 dBFS, rms of any second at most -14 dBFS, and at a start or stop no step from sample
 * to sample that is greater than what sounds before or after it already makes.
 */
const PEAK_LIMIT_DB = -6;
const RMS_LIMIT_DB = -14;
/** How much greater than the sound's own a step at a start or stop may be; of noise the greatest step is itself a matter of chance. */
const STEP_ROOM = 1.25;

const drillText = readFileSync(new URL('../../scenarios/hanger-tab-straight-6.json', import.meta.url), 'utf8');
const parsed = parseDrill(drillText);
if (!parsed.ok) throw new Error('The drill cannot be read.');
const drill = parsed.value;

let browser: Browser;
let page: Page;

beforeAll(async () => {
  const built = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      target: 'es2022',
      lib: { entry: fileURLToPath(new URL('./sound-page-entry.ts', import.meta.url)), formats: ['iife'], name: 'bundle' },
    },
  });
  const [result] = Array.isArray(built) ? built : [built];
  if (!result || !('output' in result)) throw new Error('The bundle for the browser was not built.');
  browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
  page = await browser.newPage();
  await page.addScriptTag({ content: result.output[0].code });
});

afterAll(() => browser?.close());

const db = (share: number) => 20 * Math.log10(share);

function ask<Answer>(call: keyof SoundEntry, ...given: unknown[]): Promise<Answer> {
  return page.evaluate(`globalThis.sound.${call}(${given.map((one) => JSON.stringify(one)).join(', ')})`);
}

const hear = (asked: Omit<Asked, 'volume'> & { volume?: number }, pieces: readonly (readonly [number, number])[]) =>
  ask<Heard[]>('hear', { volume: 1, ...asked }, pieces);

/** How a sample of the core sounds, by the bench's own mapping. */
function soundsLike(arc: ArcStateName, given: Partial<Sample> = {}): Partial<Stretch> {
  const blank = Object.fromEntries(SAMPLE_FIELDS.map((field) => [field, 0])) as Sample;
  const sound = silence();
  const sample = { ...blank, arcState: ARC_STATES.indexOf(arc), ...given };
  const never = Number.POSITIVE_INFINITY;
  soundOf(sample, soundRig(setupFromDrill(drill, 0, null)), { inStateS: 1, sinceLostS: never, sinceOutS: never }, sound);
  // Not a figure that JSON could carry, and the graph does not ask for it.
  return { ...sound, voltageV: 0 };
}

const GAS = soundsLike('pre-flow');
const BLIND = soundsLike('transferred', { arcVoltageV: 112, topMm3PerS: 210 });
const THROUGH = soundsLike('transferred', { arcVoltageV: 114, underMm3PerS: 160, throughFraction: 0.25 });
const EVERYTHING: Partial<Stretch> = {
  ...{ gas: 1, pilot: 1, arc: 1, under: 1, spray: 1, double: 1, lost: 1, out: 1 },
  ...{ toneHz: 900, brightHz: 6200, roughness: 1 },
};

async function steady(sound: Partial<Stretch>): Promise<Heard> {
  const [heard] = await hear({ stretches: [{ atS: 0, ...sound }], lengthS: 1.5 }, [[0.4, 1.4]]);
  return heard as Heard;
}

/** A run of the core, frame by frame as the page gets it, as one piece of sound. */
function runAsSound(fault: FaultHandId | null): Omit<Asked, 'volume'> {
  const window = windowOfDrill(drill);
  const script = fault === null ? referenceHand(drill, window) : faultHand(fault, drill, window).script;
  const { samples } = runHand(drill, script, 3);
  const follower = createSoundFollower(setupFromDrill(drill, 3, null));
  const stretches: Stretch[] = [];
  const off = ARC_STATES.indexOf('off');
  const { columns } = samples;
  for (let tick = 4; tick <= samples.length; tick += 4) {
    const sample = Object.fromEntries(SAMPLE_FIELDS.map((field) => [field, columns[field][tick - 1]])) as Sample;
    follower.follow(sample, sample.arcState !== off, tick);
    stretches.push({ ...follower.sound, voltageV: 0, atS: tick / TICK_HZ });
  }
  return { stretches, lengthS: samples.length / TICK_HZ };
}

describe('level', () => {
  test('all at once and as loud as it goes stays under the ceiling; so does a whole run, good or lost', async () => {
    expect(db((await steady(EVERYTHING)).peak)).toBeLessThanOrEqual(PEAK_LIMIT_DB);
    for (const fault of [null, 'too-fast'] as const) {
      const run = runAsSound(fault);
      const seconds = Array.from({ length: Math.floor(run.lengthS) }, (_, n) => [n, n + 1] as const);
      const heard = await hear(run, seconds);
      expect(Math.max(...heard.map(({ peak }) => db(peak)))).toBeLessThanOrEqual(PEAK_LIMIT_DB);
      expect(Math.max(...heard.map(({ rms }) => db(rms)))).toBeLessThanOrEqual(RMS_LIMIT_DB);
      // And it is not quiet by being empty: most of a run is arc.
      expect(heard.filter(({ rms }) => db(rms) > -30).length).toBeGreaterThan(heard.length / 3);
    }
  });

  test('even a burst of everything out of silence is held', async () => {
    const burst = { stretches: [{ atS: 0.5, ...EVERYTHING }], lengthS: 1 };
    const [before, after] = (await hear(burst, [
      [0, 0.49],
      [0.5, 0.7],
    ])) as [Heard, Heard];
    expect(before.peak).toBe(0);
    expect(db(after.peak)).toBeLessThanOrEqual(PEAK_LIMIT_DB);
  });

  test('volume only takes away: half is 12 dB less, nothing is nothing', async () => {
    const stretches = [{ atS: 0, ...THROUGH }];
    const [[full], [half], [none]] = (await Promise.all(
      [1, 0.5, 0].map((volume) => hear({ stretches, lengthS: 1, volume }, [[0.4, 1]])),
    )) as [Heard[], Heard[], Heard[]];
    expect(db(full?.rms as number) - db(half?.rms as number)).toBeCloseTo(12.04, 1);
    expect(none?.peak).toBe(0);
  });
});

describe('what can be told by ear', () => {
  test('silence is silent; gas is heard; the arc is at least 6 dB louder than gas alone', async () => {
    expect((await steady({})).peak).toBe(0);
    const gas = await steady(GAS);
    expect(db(gas.rms)).toBeGreaterThan(-40);
    expect(db((await steady(THROUGH)).rms) - db(gas.rms)).toBeGreaterThan(6);
  });

  test('break-through: the middle of the spectrum falls by a quarter and more', async () => {
    const [blind, through] = [await steady(BLIND), await steady(THROUGH)];
    expect(through.centroidHz).toBeLessThan(blind.centroidHz * 0.75);
    // Not only because a blind arc spatters above: without that it is brighter too.
    const quiet = await steady({ ...BLIND, spray: 0 });
    expect(through.centroidHz).toBeLessThan(quiet.centroidHz * 0.85);
  });

  test('a longer arc is brighter', async () => {
    const long = soundsLike('transferred', { arcVoltageV: 160, underMm3PerS: 160, throughFraction: 0.25 });
    expect((await steady(long)).centroidHz).toBeGreaterThan((await steady(THROUGH)).centroidHz * 1.05);
  });
});

describe('no clicks', () => {
  const STARTS: [string, Partial<Stretch>, Partial<Stretch>][] = [
    ['the gas comes', {}, GAS],
    ['the arc strikes', GAS, BLIND],
    ['it breaks through', BLIND, THROUGH],
    ['the arc is let go', THROUGH, GAS],
    ['all stops', THROUGH, {}],
  ];
  test.each(STARTS)('when %s, no step is greater than those of the sound before or after', async (_, from, to) => {
    const stretches = [
      { atS: 0, ...from },
      { atS: 1, ...to },
    ];
    const [before, change, after] = (await hear({ stretches, lengthS: 2.2 }, [
      [0.3, 0.99],
      [0.98, 1.15],
      [1.4, 2.2],
    ])) as [Heard, Heard, Heard];
    expect(change.step).toBeLessThanOrEqual(Math.max(before.step, after.step) * STEP_ROOM);
  });

  test('muting and standing still fade: the last sound is no step, and then there is nothing', async () => {
    const stretches = [
      { atS: 0, ...THROUGH },
      { atS: 1, hush: true },
    ];
    const [before, change, after] = (await hear({ stretches, lengthS: 2.5 }, [
      [0.3, 0.99],
      [0.99, 1.2],
      [1.6, 2.5],
    ])) as [Heard, Heard, Heard];
    expect(change.step).toBeLessThanOrEqual(before.step * STEP_ROOM);
    expect(db(after.peak)).toBeLessThan(-90);
  });
});

test('the same moments sound the same each time: the noise is seeded', async () => {
  const asked: Asked = { stretches: [{ atS: 0, ...BLIND }], lengthS: 1, volume: 1 };
  // The browser sums in an order of its own, so the last bits differ.
  expect(db(await ask<number>('differenceOfTwo', asked))).toBeLessThan(-80);
});
