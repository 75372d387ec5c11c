import type { Page } from '@playwright/test';
import { PerspectiveCamera, Vector3 } from 'three';
import { applyPose, BENCH_FOV_DEG, stationPose } from '../../renderer/scene/cameras.ts';

/** A plate as the bench shows it. */
export interface PlateOnBench {
  lengthMm: number;
  widthMm: number;
}

export interface Spot {
  xMm: number;
  yMm: number;
}

/** Where the wheel has to bring the tip, and what one notch of 100 does, mm. */
const STAND_OFF_MM = 1.6;
const WAIT_HEIGHT_MM = 8;
const NOTCH_MM = 0.4;

/** Screen place of a point of the plate in the bench's fixed view, as an eye at the screen would find it. */
export async function benchEye(
  page: Page,
  plate: PlateOnBench,
): Promise<(spot: Spot, heightMm?: number) => { x: number; y: number }> {
  const box = await page.locator('.bench-stage').boundingBox();
  if (!box) throw new Error('The bench has no stage.');
  const camera = new PerspectiveCamera(BENCH_FOV_DEG, box.width / box.height, 5, 20000);
  applyPose(camera, stationPose('operator', plate.lengthMm, plate.widthMm, box.width / box.height));
  camera.updateProjectionMatrix();
  return (spot, heightMm = STAND_OFF_MM) => {
    const seen = new Vector3(spot.xMm, spot.yMm, heightMm).project(camera);
    return { x: box.x + ((seen.x + 1) / 2) * box.width, y: box.y + ((1 - seen.y) / 2) * box.height };
  };
}

/** Waits until the bench's guide says one of these. */
export async function untilStep(page: Page, ...steps: string[]): Promise<void> {
  const any = steps.map((step) => `.bench[data-step="${step}"]`).join(', ');
  try {
    await page.locator(any).waitFor({ timeout: 30_000 });
  } catch (error) {
    const step = await page.locator('.bench').getAttribute('data-step', { timeout: 1000 });
    throw new Error(`The guide never said ${steps.join(' or ')}; it says ${step}.`, { cause: error });
  }
}

/**
 * Moves the mouse along a line at a true speed, by the clock. Like a mouse, it does not wait for the page to have taken one
 * movement before it makes the next.
 */
export async function sweep(
  page: Page,
  eye: (spot: Spot) => { x: number; y: number },
  spotAt: (travelledMm: number) => Spot,
  lengthMm: number,
  speedMmPerS: number,
): Promise<void> {
  const began = performance.now();
  const moves: Promise<void>[] = [];
  for (let travelled = 0; travelled < lengthMm; ) {
    travelled = Math.min(lengthMm, ((performance.now() - began) / 1000) * speedMmPerS);
    const { x, y } = eye(spotAt(travelled));
    moves.push(page.mouse.move(x, y));
    await new Promise((resolve) => setTimeout(resolve, 16));
  }
  await Promise.all(moves);
}

/** To a place at the edge with the mouse, down with the wheel, trigger, wait for sparks below. */
export async function strikeWithMouse(
  page: Page,
  eye: (spot: Spot, heightMm?: number) => { x: number; y: number },
  start: Spot,
): Promise<void> {
  const above = eye(start, WAIT_HEIGHT_MM);
  await page.mouse.move(above.x - 30, above.y);
  await page.mouse.move(above.x, above.y, { steps: 10 });
  for (let n = 0; n < (WAIT_HEIGHT_MM - STAND_OFF_MM) / NOTCH_MM; n += 1) await page.mouse.wheel(0, 100);
  const down = eye(start);
  await page.mouse.move(down.x, down.y, { steps: 5 });
  await untilStep(page, 'strike');
  await page.mouse.down();
  await untilStep(page, 'move', 'faster');
}

export interface KeyCut {
  /** Whole mm/s; the arrow keys are set to it. */
  speedMmPerS: number;
}

const FIRST_SET_SPEED_MM_PER_S = 10;
const WAIT_BACK_MM = 20;
const LOWER_MM_PER_S = 6;

/** Holds a key for a time, s. The page goes by the stamps of the two events, so the time that a busy page takes to answer counts in. */
export async function holdKey(page: Page, key: string, seconds: number): Promise<void> {
  const began = performance.now();
  await page.keyboard.down(key);
  await new Promise((resolve) => setTimeout(resolve, Math.max(0, seconds * 1000 - (performance.now() - began))));
  await page.keyboard.up(key);
}

/** Short of the edge by this much, and how long a key is tapped at the fine pace: let go late on a busy machine, it makes no great way. */
const SHORT_OF_EDGE_MM = 2.5;
const TAP_S = 0.45;
const TAPS = 30;
const CREEP_ON_MS = 400;

/** What a hand does about a step of the guide. */
export type Answers = Record<string, () => Promise<void>>;

/** Does what the guide asks for, as a person would, a little at a time, until it says `until`. */
export async function followGuide(page: Page, answers: Answers, until: string): Promise<void> {
  for (let n = 0; n < TAPS; n += 1) {
    const step = await page.locator('.bench').getAttribute('data-step');
    if (step === until) return;
    await answers[step ?? '']?.();
    // A sentence stands for a while before the next one comes.
    await page.waitForTimeout(900);
  }
  await untilStep(page, until);
}

/** Taps a key at the fine pace. */
async function tapFinely(page: Page, key: string): Promise<void> {
  await page.keyboard.down('Shift');
  await holdKey(page, key, TAP_S);
  await page.keyboard.up('Shift');
}

/** Follows the guide's word with taps, as a person would, until it says to pull the trigger; from above, one tap farther, into the middle of the band. */
async function tapToStart(page: Page): Promise<void> {
  let last = '';
  const tap = (key: string) => async () => {
    last = key;
    await tapFinely(page, key);
  };
  await followGuide(page, { raise: tap('r'), lower: tap('f'), approach: tap('ArrowRight') }, 'strike');
  if (last === 'f') await tapFinely(page, 'f');
}

/** So much of the way, mm, is left for the fine pace. A key that is let go late on a busy machine takes from it, and not from the edge. */
const FINELY_MM = 12;
const FINE = 0.25;
/** Down to here in one go, mm; the rest is tapped, so that a key let go late does not bring the tip below the band. */
const ABOVE_BAND_MM = 4.5;
/** The guide says no more to come nearer from this far before the edge on, mm. */
const NEAR_MM = 5;

/** From where the torch waits, down to where the guide is content with its height and so far past the left edge, with keys. */
export async function goToEdgeWithKeys(page: Page, pastEdgeMm: number, speedMmPerS = FIRST_SET_SPEED_MM_PER_S): Promise<void> {
  await holdKey(page, 'f', (WAIT_HEIGHT_MM - ABOVE_BAND_MM) / LOWER_MM_PER_S);
  await holdKey(page, 'ArrowRight', (WAIT_BACK_MM + pastEdgeMm - FINELY_MM) / speedMmPerS);
  await page.keyboard.down('Shift');
  await page.keyboard.down('ArrowRight');
  await page.locator('.bench:not([data-step="approach"])').waitFor({ timeout: 60_000 });
  await page.waitForTimeout(((NEAR_MM + pastEdgeMm) / (FINE * speedMmPerS)) * 1000);
  await page.keyboard.up('ArrowRight');
  await page.keyboard.up('Shift');
  await tapToStart(page);
}

/**
 * A whole cut to the right with the keyboard alone, from where the torch waits to past the far edge. The last of the way to the
 * edge is crept with the trigger held, until the arc takes hold of the metal.
 */
export async function cutWithKeys(page: Page, cut: KeyCut): Promise<void> {
  const steps = cut.speedMmPerS - FIRST_SET_SPEED_MM_PER_S;
  for (let n = 0; n < Math.abs(steps); n += 1) await page.keyboard.press(steps > 0 ? '.' : ',');
  await goToEdgeWithKeys(page, -SHORT_OF_EDGE_MM, cut.speedMmPerS);
  await untilStep(page, 'strike');
  await page.keyboard.down('Space');
  await page.keyboard.down('Shift');
  await page.keyboard.down('ArrowRight');
  await page.locator('[data-arc="transferred"]').waitFor({ timeout: 30_000 });
  // The arc reaches out to the edge; the tip has still to come over it.
  await page.waitForTimeout(CREEP_ON_MS);
  await page.keyboard.up('ArrowRight');
  await page.keyboard.up('Shift');
  await untilStep(page, 'move', 'faster');
  await page.keyboard.down('ArrowRight');
  await untilStep(page, 'release');
  await page.keyboard.up('Space');
  await page.keyboard.up('ArrowRight');
}

/** A run that is begun and ended where the torch waits, for tests that need a run and not a cut. */
export async function tryTheTrigger(page: Page): Promise<void> {
  await page.keyboard.press('Space', { delay: 300 });
  await page.keyboard.press('e');
}

/** The middle of the speed window that the drill's card shows, whole mm/s. */
export async function middleSpeed(page: Page): Promise<number> {
  const window = page.locator('[data-window-low]');
  await page.locator('[data-window-low]:not([data-window-low=""])').waitFor({ timeout: 60_000 });
  const low = Number(await window.getAttribute('data-window-low'));
  const high = Number(await window.getAttribute('data-window-high'));
  return Math.round((low + high) / 2);
}
