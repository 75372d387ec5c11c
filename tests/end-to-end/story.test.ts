import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, type Page, test } from '@playwright/test';
import { decodeRunFile, encodeRunFile, type RunFile } from '../../sim-core/index.ts';
import { withoutTriggers } from '../host/without-triggers.ts';
import { chooseFile, dropFiles, saveBy } from './given-file.ts';
import { tryTheTrigger } from './hands.ts';
import { openApp, reviewReady, toRoom } from './page.ts';
import { type RunningHost, startHost, temporaryFolder } from './start-host.ts';
import { verifyRun } from './verify-run.ts';

const INSTRUCTOR = 'slipway before noon';
const ASSESSOR = 'low water at the gate';
const ROSTER = ['role,number,groups', 'apprentice,1,Noon watch', 'apprentice,2,Noon watch'].join('\r\n');

test.use({ actionTimeout: 60_000 });

/** Fills in a new passphrase twice, as its dialog asks. */
async function newPassphrase(page: Page, passphrase: string): Promise<void> {
  await page.getByLabel(/^Passphrase, 8/).fill(passphrase);
  await page.getByLabel('The same passphrase again').fill(passphrase);
  await page.keyboard.press('Enter');
}

async function signInAs(page: Page, name: string, passphrase: string): Promise<void> {
  await page.getByRole('button', { name: /Who$/ }).click();
  await page.getByRole('option', { name }).click();
  await page.getByLabel('Passphrase').fill(passphrase);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.getByRole('button', { name: `${name} is signed in` }).waitFor();
}

const signOut = (page: Page) => page.getByRole('button', { name: 'Sign out' }).click();

/** The first day: roles, people, a drill for a group. */
async function setUpTheYard(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Make the first instructor' }).click();
  await newPassphrase(page, INSTRUCTOR);
  await page.getByRole('button', { name: 'Instructor 01 is signed in' }).waitFor();

  await toRoom(page, 'People');
  await dropFiles(page, { name: 'roster.csv', text: ROSTER });
  await expect(page.locator('[data-roster="new"]')).toHaveCount(2);
  await page.getByRole('button', { name: 'Take in 2 new' }).click();
  await expect(page.getByText('3 of 3 people')).toBeVisible();
  await page.getByRole('button', { name: 'Add a person' }).click();
  await page.getByRole('menuitem', { name: 'Assessor' }).click();
  await page.getByRole('button', { name: 'Give a passphrase to Assessor 01' }).click();
  await newPassphrase(page, ASSESSOR);
  await expect(page.getByRole('row', { name: /Assessor 01/ })).toContainText('a passphrase');

  await toRoom(page, 'Assigned');
  await page.getByRole('button', { name: 'New assignment' }).click();
  await page.getByRole('searchbox', { name: 'Find: Drills' }).fill('hanger tab');
  await page
    .getByRole('listbox', { name: 'Drills' })
    .getByRole('option', { name: /Trailer hanger tab/ })
    .click();
  await page
    .getByRole('listbox', { name: 'Groups' })
    .getByRole('option', { name: /Noon watch/ })
    .click();
  await page.getByLabel('Title', { exact: true }).fill('First tab');
  await page.getByRole('button', { name: 'Assign', exact: true }).click();
  await expect(page.locator('[data-assignment]')).toContainText('group Noon watch');
}

/** The apprentice finds what is due, tries it, looks at it, and hands it in. @returns the run's id */
async function cutAndHandIn(page: Page): Promise<string> {
  await page.getByRole('option', { name: 'Apprentice 02' }).click();
  await page
    .locator('[data-due]')
    .getByRole('button', { name: /^Cut it: Trailer hanger tab/ })
    .click();
  await page.getByRole('button', { name: 'To the plate' }).click({ timeout: 60_000 });
  await page.locator('.bench[data-tier]:not([data-tier=""])').waitFor();
  await tryTheTrigger(page);
  await reviewReady(page);
  const runId = new URL(page.url()).hash.replace('#/run/', '');
  await page.getByRole('button', { name: 'Home' }).click();
  await page
    .locator('[data-run-state="finished"]')
    .getByRole('button', { name: /^Hand in/ })
    .click();
  await expect(page.locator('[data-due]')).toContainText('handed in, waiting for the assessor');
  return runId;
}

/** What the verdict room says of the run that is open. */
async function expectTrust(page: Page, state: string): Promise<void> {
  await page.getByRole('tab', { name: 'Verdict' }).click();
  await expect(page.locator('[data-trust]:not([data-trust="checking"])')).toHaveAttribute('data-trust', state, {
    timeout: 60_000,
  });
}

async function judge(page: Page): Promise<void> {
  await toRoom(page, 'Queue');
  await page.getByRole('button', { name: /^Open .* by Apprentice 02$/ }).click();
  await reviewReady(page);
  await expectTrust(page, 'same');
  await page.getByRole('radio', { name: 'Not yet competent' }).press('Space');
  await page.getByRole('textbox', { name: 'Reasons' }).fill('The edge was left too soon.');
  await page.getByRole('button', { name: 'Overrule Travel speed' }).click();
  await page.getByRole('textbox', { name: 'New mark' }).fill('55');
  await page.getByRole('textbox', { name: 'Why' }).fill('Even, but the last third was hurried.');
  await page.getByLabel('Passphrase of Assessor 01').fill(ASSESSOR);
  await page.getByRole('button', { name: 'Sign the verdict' }).click();
  await expect(page.locator('.given')).toContainText('Travel speed: 55 instead of', { timeout: 60_000 });
}

/** The files of a judged run go to somebody outside, who can tell a good one from a changed one. */
async function checkTheFiles(page: Page, folder: string): Promise<void> {
  const verdict = await saveBy(page, 'Save the verdict', folder);
  const key = await saveBy(page, 'Save the public key', folder);
  const run = await saveBy(page, 'Save as a file', folder);
  const good = verifyRun(run, key, verdict);
  expect(good.code, good.said).toBe(0);

  const text = readFileSync(run, 'utf8');
  const read = decodeRunFile(text);
  if (!read.ok) throw new Error('The run that was saved cannot be read.');
  const score = read.run.score as NonNullable<RunFile['score']>;
  const raised = encodeRunFile({ ...read.run, score: { ...score, score: 100 } as RunFile['score'] });
  await toRoomByAddress(page, 'queue');
  await dropFiles(page, { name: 'raised.kerfhand-run', text: raised });
  await page.locator('.review').waitFor();
  await expectTrust(page, 'different');
  await expect(page.locator('[data-trust]')).toContainText('the record was changed after the cut');
  await toRoomByAddress(page, 'queue');
  await dropFiles(page, { name: 'scratched.kerfhand-run', text: text.replace('"seed":', '"seed":1') });
  await expect(page.getByRole('alert')).toContainText('its seal, the digest in its second line, does not fit');
  await page.getByRole('button', { name: 'Put away' }).click();
}

async function toRoomByAddress(page: Page, room: string): Promise<void> {
  await page.goto(new URL(`/#/${room}`, page.url()).href);
  await page.locator('main').waitFor();
}

/** Somebody at the file of the records itself, while Kerfhand is closed: a verdict is turned round, and a group loses its members. */
function tamper(folder: string): void {
  const records = new DatabaseSync(join(folder, 'records.db'));
  withoutTriggers(records, () =>
    records.exec(`update ledger set body = replace(body, 'not-yet-competent', 'competent') where kind = 'verdict';
      delete from group_members`),
  );
  records.close();
}

test('one term in a small yard: roster, drill, cut, verdict, files that prove it, a record that was tampered with, and a restore', async ({
  page,
  context,
}) => {
  test.setTimeout(300_000);
  const [folder, files] = [temporaryFolder(), temporaryFolder()];
  let host: RunningHost | null = await startHost(folder.path);
  let shown = page;
  const complaints: string[] = [];
  /** Closed, something is done or not, and opened again. */
  const startAgain = async (between: () => void = () => undefined): Promise<void> => {
    await shown.close();
    await host?.stop();
    between();
    host = await startHost(folder.path);
    shown = await context.newPage();
    complaints.push(...(await openApp(shown, host)));
  };
  try {
    const said = await openApp(shown, host);
    await setUpTheYard(shown);
    await signOut(shown);
    const runId = await cutAndHandIn(shown);
    await signOut(shown);
    await signInAs(shown, 'Assessor 01', ASSESSOR);
    await judge(shown);
    await checkTheFiles(shown, files.path);
    await signOut(shown);

    await signInAs(shown, 'Instructor 01', INSTRUCTOR);
    await toRoom(shown, 'Who did what');
    await expect(shown.locator('[data-chain="whole"]')).toBeVisible();
    await toRoom(shown, 'Backup');
    const backup = await saveBy(shown, 'Back up now', files.path);
    await expect(shown.locator('[data-backup="done"]')).toBeVisible();
    expect(said).toEqual([]);

    await startAgain(() => tamper(folder.path));
    await signInAs(shown, 'Instructor 01', INSTRUCTOR);
    await toRoom(shown, 'People');
    await expect(shown.getByText('0 members')).toBeVisible();
    await toRoom(shown, 'Who did what');
    await expect(shown.locator('[data-chain="broken"]')).toContainText(
      /Entry \d+ was changed: its digest does not fit what it says/,
    );
    await expect(shown.locator('tr[data-wrong="true"]')).toContainText('Signed a verdict: Competent.');
    await toRoom(shown, 'Backup');
    await chooseFile(shown, 'Choose a backup', backup);
    await shown.getByLabel('Passphrase of Instructor 01').fill(INSTRUCTOR);
    await shown.getByRole('button', { name: 'Restore at the next start' }).click();
    await expect(shown.locator('[data-restore="waits"]')).toContainText('Close Kerfhand and open it again');

    await startAgain();
    await signInAs(shown, 'Instructor 01', INSTRUCTOR);
    await expect(shown.getByText(/^The yard was restored from the backup of/)).toBeVisible();
    await toRoom(shown, 'People');
    await expect(shown.getByText('2 members')).toBeVisible();
    await toRoom(shown, 'Who did what');
    await expect(shown.locator('[data-chain="whole"]')).toBeVisible();
    await expect(shown.locator('tr[data-kind="verdict"]')).toContainText('Signed a verdict: Not yet competent.');
    await expect(shown.locator('tr[data-kind="restore"]')).toContainText('as Instructor 01 had asked');
    await signOut(shown);
    await shown.getByRole('option', { name: 'Apprentice 02' }).click();
    await expect(shown.locator('[data-due]')).toContainText('not yet competent');
    await shown
      .locator(`[data-run-id="${runId}"]`)
      .getByRole('button', { name: /^Replay/ })
      .click();
    await reviewReady(shown);
    await shown.getByRole('tab', { name: 'Verdict' }).click();
    await expect(shown.locator('.given')).toContainText('The edge was left too soon.');
    expect(complaints).toEqual([]);
  } finally {
    await host?.stop();
    folder.remove();
    files.remove();
  }
});
