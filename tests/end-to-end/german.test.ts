import { expect, type Page, test } from '@playwright/test';
import type { DemoYard } from '../../electron/contract.ts';
import { de } from '../../renderer/text/de.ts';
import { en } from '../../renderer/text/en.ts';
import { keepTogether } from '../../renderer/text/keep-together.ts';
import { sidewaysPx, unsoundness } from './expect-sound.ts';
import { callHost } from './imported-run.ts';
import { openRig } from './rig.ts';
import { startHost, temporaryFolder } from './start-host.ts';

/** A window in the light of day, and the same at twice the size, half as many CSS px, in that of evening. */
const LOOKS = [
  { theme: 'light', width: 1280, height: 800 },
  { theme: 'dark', width: 640, height: 400 },
] as const;

/** Without what keeps words together, and with one space between them. */
const plain = (words: string) => words.replace(/\u2060/g, '').replace(/\s+/g, ' ');

/** What of the English table can be told from German: pieces of more than three words without a value between them. */
const ENGLISH = Object.values(en)
  .flatMap((words) => keepTogether(words).split(/\{[a-zA-Z]+\}/))
  .map((piece) => plain(piece).trim())
  .filter((piece) => piece.split(' ').length > 3);

/** All that is shown, or told to readers of the screen, but for what is marked as English. */
async function shownWords(page: Page): Promise<string> {
  const words = await page.evaluate(() => {
    const found: string[] = [];
    const look = (element: Element) => {
      if (element.closest('[lang]')?.getAttribute('lang') === 'en' || !element.checkVisibility()) return;
      for (const name of ['aria-label', 'title', 'placeholder', 'alt']) found.push(element.getAttribute(name) ?? '');
      found.push([...element.childNodes].map((node) => (node.nodeType === Node.TEXT_NODE ? node.textContent : '\n')).join(''));
      for (const child of element.children) look(child);
    };
    look(document.body);
    return found.join('\n');
  });
  return plain(words);
}

/** Controls whose words are cut off, by their own edge or by that of the window. */
function cutOffControls(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const cutOff: string[] = [];
    for (const control of document.querySelectorAll<HTMLElement>('button, a[href], label')) {
      if (control.closest('.out-of-sight:not(.skip), [inert]') || !control.checkVisibility()) continue;
      // The way past the head is in sight only while it has the focus.
      if (control.matches('.skip')) control.focus();
      const box = control.getBoundingClientRect();
      if (box.width <= 1 || getComputedStyle(control).display === 'inline') continue;
      // What lies in a frame that scrolls is reached there.
      let frame = control.parentElement;
      while (frame && !/auto|scroll/.test(getComputedStyle(frame).overflowX)) frame = frame.parentElement;
      const outside = frame === null && (box.right > window.innerWidth + 1 || box.left < -1);
      if (control.scrollWidth - control.clientWidth > 1 || outside) cutOff.push((control.textContent ?? '').trim());
    }
    return cutOff;
  });
}

/** Titles of drills name the plate as it is sold. */
async function drillTitles(page: Page): Promise<string[]> {
  const { drills } = await callHost<{ drills: { title: string }[] }>(page, 'listDrills', {});
  return drills.map(({ title }) => plain(title));
}

/** No English, no millimetre, nothing cut off, in both looks; where asked for, nothing to be scrolled sideways and sound by axe too. */
async function expectGerman(page: Page, screen: string, alsoSound = false): Promise<void> {
  const words = await shownWords(page);
  const english = ENGLISH.filter((piece) => words.includes(piece));
  expect.soft(english, `${screen} says something in English`).toEqual([]);
  const untitled = (await drillTitles(page)).reduce((rest, title) => rest.replaceAll(title, ''), words);
  expect.soft(untitled.match(/.{0,30}\d mm\b.{0,20}/g) ?? [], `${screen} shows millimetres`).toEqual([]);
  for (const look of LOOKS) {
    await page.setViewportSize(look);
    await page.emulateMedia({ colorScheme: look.theme });
    await expect(page.locator('html')).toHaveAttribute('data-theme', look.theme);
    const name = `${screen}, ${look.width} wide`;
    expect.soft(await cutOffControls(page), `${name}: words that are cut off`).toEqual([]);
    if (!alsoSound) continue;
    expect.soft(await sidewaysPx(page), `${name}: px wider than the window`).toBeLessThanOrEqual(0);
    expect.soft(await unsoundness(page, name), name).toEqual([]);
  }
  await page.setViewportSize(LOOKS[0]);
}

async function goTo(page: Page, hash: string, ready: string): Promise<void> {
  await page.goto(new URL(`/#/${hash}`, page.url()).href);
  await page.locator(ready).first().waitFor({ timeout: 60_000 });
}

const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

test('in German and in inches: settings, dialogs, help, hand, card, bench, rig', async ({ page }) => {
  test.setTimeout(600_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await page.goto(host.address);
    await page.getByRole('button', { name: en['start.go'] }).click();
    await page.getByRole('button', { name: en['settings.title'] }).click();
    await page.getByRole('radio', { name: 'Deutsch' }).press('Space');
    await expect(page.locator('html')).toHaveAttribute('lang', 'de');
    await page.getByRole('radio', { name: de['settings.units.inch'] }).press('Space');
    await expectGerman(page, 'settings', true);
    await button(page, de['prices.open']).press('Enter');
    await expectGerman(page, 'prices');
    await page.keyboard.press('Escape');
    await page.reload();
    await button(page, de['start.go']).waitFor();
    await expectGerman(page, 'caution');
    await button(page, de['start.go']).click();
    await expectGerman(page, 'home', true);
    await button(page, de['settings.title']).click();
    await page.getByRole('dialog').getByRole('button', { name: de['controls.open'] }).press('Enter');
    await page.getByRole('heading', { name: de['controls.title'] }).waitFor();
    await expectGerman(page, 'hand and keys', true);
    await page.keyboard.press('Escape');
    await goTo(page, 'hand', '.hand-lead');
    await expectGerman(page, 'measuring the hand', true);
    for (const topic of ['keys', 'cautions', 'fading', 'line-following']) {
      await goTo(page, `help/${topic}`, 'h1');
      await expectGerman(page, `help, ${topic}`, true);
    }

    await goTo(page, 'drill/guard-patch-straight-3', '.drill-card');
    await button(page, de['card.start']).waitFor({ timeout: 90_000 });
    await expectGerman(page, 'card', true);
    await button(page, de['card.start']).press('Enter');
    await page.locator('.start-mark').waitFor({ timeout: 60_000 });
    await expectGerman(page, 'bench', true);
    await goTo(page, '', '.drill-sheet');
    await openRig(page, /Trailer step/, de);
    await expectGerman(page, 'rig check');
    await button(page, de['rig.strike']).click();
    await page.locator('[data-finding]').first().waitFor();
    await expectGerman(page, 'rig check, stopped');
  } finally {
    await host.stop();
    folder.remove();
  }
});

test('in German and in inches: every room of a yard, and the review', async ({ page }) => {
  test.setTimeout(600_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await page.goto(host.address);
    await callHost(page, 'setSettings', { language: 'de', units: 'inch' });
    const { facts } = await callHost<DemoYard>(page, 'openDemoYard', {});
    const { people } = await callHost<{ people: { id: string; name: string }[] }>(page, 'listPeople', {});
    const arriveAs = async (name: string) => {
      const passphrase = facts?.entries.find((one) => one.name === name)?.passphrase;
      const personId = people.find((one) => one.name === name)?.id;
      await callHost(page, 'signIn', passphrase === undefined ? { personId } : { personId, passphrase });
      await page.reload();
      await button(page, de['start.go']).click();
    };
    await page.reload();
    await button(page, de['start.go']).click();
    await page.getByRole('heading', { name: de['sign.title'] }).waitFor();
    await expectGerman(page, 'who is at this bench');
    await arriveAs('Apprentice 11');
    await page.locator('[data-due]').first().waitFor();
    await expectGerman(page, 'own page');

    await arriveAs('Instructor 01');
    const rooms = [
      ['class', '[data-person]'],
      ['people', 'tbody tr'],
      ['assignments', '[data-assignment]'],
      ['assignments/new', '.assign-room'],
      ['packs', 'h1'],
      ['backup', '[data-last-backup]'],
      ['record', '[data-seq]'],
      ['moderation', 'h1'],
    ] as const;
    for (const [hash, ready] of rooms) {
      await goTo(page, hash, ready);
      await expectGerman(page, hash);
    }

    await arriveAs('Assessor 01');
    await goTo(page, 'queue', 'tbody tr');
    await expectGerman(page, 'queue');
    await page
      .getByRole('button', { name: /öffnen$/ })
      .first()
      .press('Enter');
    await page.locator('.review[data-ready="true"]').waitFor({ timeout: 120_000 });
    await expectGerman(page, 'review');
    for (const tab of [de['review.tab.face'], de['review.tab.cost'], de['review.tab.marks'], de['review.tab.notes']]) {
      await page.getByRole('tab', { name: tab }).press('Enter');
      await expectGerman(page, `review, ${tab}`);
    }
  } finally {
    await host.stop();
    folder.remove();
  }
});
