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
  await page.locator(any).waitFor({ timeout: 30_000 });
}

/** Moves the mouse along a line at a true speed, by the clock. */
export async function sweep(
  page: Page,
  eye: (spot: Spot) => { x: number; y: number },
  spotAt: (travelledMm: number) => Spot,
  lengthMm: number,
  speedMmPerS: number,
): Promise<void> {
  const began = performance.now();
  for (;;) {
    const travelled = Math.min(lengthMm, ((performance.now() - began) / 1000) * speedMmPerS);
    const { x, y } = eye(spotAt(travelled));
    await page.mouse.move(x, y);
    if (travelled >= lengthMm) return;
    await new Promise((resolve) => setTimeout(resolve, 8));
  }
}

export interface MouseCut {
  plate: PlateOnBench;
  /** Place along the cut, from 0 at the edge; may go on past the end. */
  spotAt(travelledMm: number): Spot;
  lengthMm: number;
  speedMmPerS: number;
}

/** A whole cut with the mouse: to the edge, down with the wheel, trigger, wait for sparks below, along the line, off the end. */
export async function cutWithMouse(page: Page, cut: MouseCut): Promise<void> {
  const eye = await benchEye(page, cut.plate);
  const start = cut.spotAt(0.4);
  const above = eye(start, WAIT_HEIGHT_MM);
  await page.mouse.move(above.x - 30, above.y);
  await page.mouse.move(above.x, above.y, { steps: 10 });
  for (let n = 0; n < (WAIT_HEIGHT_MM - STAND_OFF_MM) / NOTCH_MM; n += 1) await page.mouse.wheel(0, 100);
  const down = eye(start);
  await page.mouse.move(down.x, down.y, { steps: 5 });
  await untilStep(page, 'strike');
  await page.mouse.down();
  await untilStep(page, 'move', 'faster');
  await sweep(page, eye, (travelled) => cut.spotAt(0.4 + travelled), cut.lengthMm + 5, cut.speedMmPerS);
  await page.mouse.up();
}
