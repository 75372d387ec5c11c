import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { expect, type Page, test } from '@playwright/test';
import { openApp } from './page.ts';
import { joinPictures, openSceneRun, pictureAt, prepareScene, type SceneRun } from './scene-states.ts';
import { type RunningHost, startHost, temporaryFolder } from './start-host.ts';

/**
 * A handful of fixed moments against kept pictures. To keep new ones after a change that is meant to be seen:
 * KERFHAND_KEEP_PICTURES=1 with this file, and look at each of them.
 *
 * Tolerance. The moments come from runs that are equal to the last bit everywhere, so what differs between machines is the renderer:
 * where an edge falls within a pixel, the last bits of a shader, the smoothing of the canvas when it is brought to size. Pictures are
 * therefore compared as means over blocks of 8 by 8 pixels, in which an edge that moves by half a pixel over a full step of
 * brightness changes a block by 1/16, 16 of 255. A block counts as different above that, with half as much again (24). Sparks and
 * glow lie over a few percent of the blocks, and another renderer may draw those differently: up to 2 % of the blocks may differ.
 * A torch, a kerf, a spray or a piece that is missing covers more: the last test shows that each of the moments is told from every
 * other by that measure.
 */
const BLOCK = 8;
const BLOCK_DIFFERS = 24;
const SHARE_HIGH = 0.02;

const SIZE = { width: 320, height: 184 };
const FOLDER = join(import.meta.dirname, 'kept-pictures');

const MOMENTS: readonly (SceneRun & { name: string; seconds: number })[] = [
  { name: 'good-cut', drillId: 'hanger-tab-straight-6', fault: null, station: 'Operator', seconds: 9 },
  { name: 'fallen-piece', drillId: 'hanger-tab-straight-6', fault: null, station: 'Side', seconds: 15.1 },
  { name: 'lost-cut', drillId: 'hanger-tab-straight-6', fault: 'too-fast', station: 'Shoulder', seconds: 5.4 },
  { name: 'slow-cut-below', drillId: 'hanger-tab-straight-6', fault: 'too-slow', station: 'Below', seconds: 25 },
  { name: 'upright-pierce', drillId: 'rudder-washer-rolling-12', fault: 'pierces-upright', station: 'Beside', seconds: 1.3 },
];

/** Share of blocks whose mean differs in any channel, told by the browser: it reads PNG already. */
function shareDifferent(page: Page, one: Buffer, other: Buffer): Promise<number> {
  return page.evaluate(
    async ({ pair, block, differs }) => {
      const pixels = await Promise.all(
        pair.map(async (source) => {
          const bytes = Uint8Array.from(atob(source), (letter) => letter.charCodeAt(0));
          const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
          const canvas = document.createElement('canvas');
          canvas.width = image.width;
          canvas.height = image.height;
          const context = canvas.getContext('2d');
          if (!context) throw new Error('no canvas');
          context.drawImage(image, 0, 0);
          return context.getImageData(0, 0, image.width, image.height);
        }),
      );
      const [a, b] = pixels as [ImageData, ImageData];
      if (a.width !== b.width || a.height !== b.height) return 1;
      let blocks = 0;
      let different = 0;
      for (let y0 = 0; y0 + block <= a.height; y0 += block) {
        for (let x0 = 0; x0 + block <= a.width; x0 += block) {
          const sum = [0, 0, 0];
          for (let y = y0; y < y0 + block; y += 1) {
            for (let x = x0; x < x0 + block; x += 1) {
              const at = (y * a.width + x) * 4;
              for (let c = 0; c < 3; c += 1)
                sum[c] = (sum[c] as number) + (a.data[at + c] as number) - (b.data[at + c] as number);
            }
          }
          blocks += 1;
          if (sum.some((value) => Math.abs(value) / (block * block) > differs)) different += 1;
        }
      }
      return different / blocks;
    },
    { pair: [one.toString('base64'), other.toString('base64')], block: BLOCK, differs: BLOCK_DIFFERS },
  );
}

const kept = (name: string) => join(FOLDER, `${name}.png`);

test.describe('the scene at fixed moments', () => {
  let folder: ReturnType<typeof temporaryFolder>;
  let host: RunningHost;
  test.beforeAll(async () => {
    folder = temporaryFolder();
    host = await startHost(folder.path);
  });
  test.afterAll(async () => {
    await host.stop();
    folder.remove();
  });

  test('each looks as it was kept', async ({ page }) => {
    test.setTimeout(400_000);
    const complaints = await openApp(page, host);
    await prepareScene(page);
    let opened = '';
    for (const moment of MOMENTS) {
      const key = `${moment.drillId} ${moment.fault}`;
      if (key !== opened) await openSceneRun(page, moment);
      else await page.getByRole('button', { name: moment.station, exact: true }).click();
      opened = key;
      const picture = await joinPictures(page, [await pictureAt(page, moment.seconds)], 1, SIZE.width, SIZE.height);
      if (process.env.KERFHAND_KEEP_PICTURES === '1') {
        mkdirSync(FOLDER, { recursive: true });
        writeFileSync(kept(moment.name), picture);
      }
      expect(existsSync(kept(moment.name)), `${moment.name} is kept`).toBe(true);
      const share = await shareDifferent(page, picture, readFileSync(kept(moment.name)));
      if (share > SHARE_HIGH) await test.info().attach(moment.name, { body: picture, contentType: 'image/png' });
      expect.soft(share, `${moment.name}: share of blocks that differ from the kept picture`).toBeLessThanOrEqual(SHARE_HIGH);
    }
    expect(complaints).toEqual([]);
  });

  test('the measure tells each moment from every other', async ({ page }) => {
    for (const [n, one] of MOMENTS.entries()) {
      for (const other of MOMENTS.slice(n + 1)) {
        const share = await shareDifferent(page, readFileSync(kept(one.name)), readFileSync(kept(other.name)));
        expect(share, `${one.name} and ${other.name}`).toBeGreaterThan(2 * SHARE_HIGH);
      }
    }
  });
});
