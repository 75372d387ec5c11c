import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { arriveAs, handIn, staffYard } from './handed-in-run.ts';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

interface Statement {
  id: string;
  actor: { account: { homePage: string; name: string } };
}

test('an instructor sends the statements of the queue to a store, and saves the same as a file', async ({ page }) => {
  test.setTimeout(120_000);
  const folder = temporaryFolder();
  const files = temporaryFolder();
  const host = await startHost(folder.path);
  const kept: Statement[] = [];
  const logins = new Set<string | undefined>();
  const store = createServer(async (request, response) => {
    let body = '';
    for await (const chunk of request.setEncoding('utf8')) body += chunk;
    logins.add(request.headers.authorization);
    const statements = JSON.parse(body) as Statement[];
    kept.push(...statements);
    response.writeHead(200, { 'content-type': 'application/json', 'x-experience-api-version': '1.0.3' });
    response.end(JSON.stringify(statements.map(({ id }) => id)));
  });
  await new Promise<void>((listening) => store.listen(0, '127.0.0.1', () => listening()));
  const { port } = store.address() as AddressInfo;
  try {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 0, 1);
    await handIn(page, yard.apprenticeIds[0] as string, 'guard-patch-straight-3', 'too-fast', 3);
    await arriveAs(page, yard.instructorId, 'queue');
    await page.getByRole('button', { name: 'Statements (xAPI)' }).press('Enter');
    await page.getByRole('radio', { name: 'A learning-record store' }).focus();
    await page.keyboard.press('Space');
    await page.getByLabel('Address that stands for the yard').fill('https://tidewater-row.example/yard');
    await page.getByLabel('Address of the store').fill(`http://127.0.0.1:${port}/xapi/`);
    await page.getByLabel('User').fill('yard');
    await page.getByLabel('Password').fill('low water');
    await page.getByRole('button', { name: 'Send the statements' }).press('Enter');
    await expect(page.locator('.sending[data-job="done"]')).toContainText(/The store has them: [1-9]\d* sent, 0/, {
      timeout: 30_000,
    });
    expect(kept.length).toBeGreaterThan(0);
    // Their form is held to the standard in tests/papers; here it matters that they are those of this yard.
    for (const { actor } of kept) expect(actor.account.homePage).toBe('https://tidewater-row.example/yard');
    expect([...logins]).toEqual([`Basic ${Buffer.from('yard:low water').toString('base64')}`]);

    await page.getByRole('button', { name: 'Statements (xAPI)' }).press('Enter');
    await page.getByRole('radio', { name: 'A file' }).focus();
    await page.keyboard.press('Space');
    const coming = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the statements' }).press('Enter');
    const file = join(files.path, 'statements.json');
    await (await coming).saveAs(file);
    const saved = JSON.parse(readFileSync(file, 'utf8')) as Statement[];
    expect(saved.map(({ id }) => id).sort()).toEqual(kept.map(({ id }) => id).sort());
    expect(complaints).toEqual([]);
  } finally {
    store.close();
    await host.stop();
    folder.remove();
    files.remove();
  }
});
