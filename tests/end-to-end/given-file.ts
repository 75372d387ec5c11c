import { join } from 'node:path';
import type { Page } from '@playwright/test';

/** A file that a person has at hand. */
export interface GivenFile {
  name: string;
  text: string;
}

/** Drops files on the window, as from the desktop. */
export async function dropFiles(page: Page, ...files: GivenFile[]): Promise<void> {
  const dataTransfer = await page.evaluateHandle((given) => {
    const transfer = new DataTransfer();
    for (const { name, text } of given) transfer.items.add(new File([text], name));
    return transfer;
  }, files);
  await page.dispatchEvent('main', 'dragover', { dataTransfer });
  await page.dispatchEvent('main', 'drop', { dataTransfer });
}

/** Gives a file to a button that opens the file dialog. */
export async function chooseFile(page: Page, button: string, path: string): Promise<void> {
  const choosing = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: button, exact: true }).click();
  await (await choosing).setFiles(path);
}

/** Downloads what a button gives into a folder; the file's path. */
export async function saveBy(page: Page, button: string, folder: string): Promise<string> {
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name: button, exact: true }).click();
  const download = await coming;
  const file = join(folder, download.suggestedFilename());
  await download.saveAs(file);
  return file;
}
