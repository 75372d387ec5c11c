import { expect, type Page, test } from '@playwright/test';
import { expectSoundInBothLooks } from './expect-sound.ts';
import { arriveAs, handIn, PASSPHRASE, sendRun, staffYard } from './handed-in-run.ts';
import { hold, pressTwice } from './hold-calls.ts';
import { callHost, runOfHand } from './imported-run.ts';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const PATCH = 'guard-patch-straight-3';
const PANEL = 'galley-panel-straight-3';

/** Chooses in one of the filters. */
async function narrow(page: Page, label: string, option: string): Promise<void> {
  await page.getByRole('button', { name: new RegExp(`${label}$`) }).click();
  await page.getByRole('option', { name: option, exact: true }).click();
}

async function expectQueue(page: Page, runIds: readonly string[]): Promise<void> {
  await expect(page.locator('.queue-filter [data-found]')).toHaveAttribute('data-found', String(runIds.length));
  await expect
    .poll(() => page.locator('[data-run-id]').evaluateAll((rows) => rows.map((row) => row.getAttribute('data-run-id'))))
    .toEqual([...runIds]);
}

test('the queue is narrowed by verdict, drill, group and weakest measure; handing in is offered where it is taken', async ({
  page,
}) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 1, 2);
    const [first, second] = yard.apprenticeIds as [string, string];
    for (const [name, memberIds] of [
      ['Early shift', [first]],
      ['Late shift', [second]],
    ] as const)
      await callHost(page, 'saveGroup', { groupId: null, name, memberIds });
    const patch = await handIn(page, first, PATCH, 'too-fast', 3);
    const panel = await handIn(page, first, PANEL, null, 3);
    const leaning = await handIn(page, second, PATCH, 'leaning', 5);

    await arriveAs(page, yard.assessorIds[0] as string, 'queue');
    await expectQueue(page, [patch, panel, leaning]);
    await narrow(page, 'Group', 'Early shift');
    await expectQueue(page, [patch, panel]);
    await narrow(page, 'Drill', 'Mudguard patch, straight, 3 mm');
    await expectQueue(page, [patch]);
    await narrow(page, 'Group', 'Late shift');
    await expectQueue(page, [leaning]);
    await page.getByRole('button', { name: 'Show all' }).click();
    await expectQueue(page, [patch, panel, leaning]);
    await narrow(page, 'Weakest measure', 'Squareness');
    await expectQueue(page, [leaning]);
    await narrow(page, 'Weakest measure', 'Travel speed');
    await expectQueue(page, [patch]);
    await narrow(page, 'Weakest measure', 'Any');
    await callHost(page, 'signVerdict', {
      runId: patch,
      decision: 'competent',
      reasons: 'Quick, but clean.',
      passphrase: PASSPHRASE,
    });
    await narrow(page, 'Show', 'Decided');
    await expectQueue(page, [patch]);
    await narrow(page, 'Show', 'All');
    await expectQueue(page, [patch, panel, leaning]);
    await narrow(page, 'Show', 'Waiting for a verdict');
    await expectQueue(page, [panel, leaning]);
    await expectSoundInBothLooks(page, 'queue');

    // The apprentice: a run like the one that was found competent is not taken, and it says so; the next drill's is.
    await callHost(page, 'signIn', { personId: second });
    const again = await sendRun(page, PATCH, second, runOfHand(PATCH, null, 9));
    const fresh = await sendRun(page, PANEL, second, runOfHand(PANEL, null, 9));
    await page.goto(new URL(`/#/run/${again}`, page.url()).href);
    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await expect(page.locator('.hand-in')).toHaveText(
      'It cannot be handed in: Another run of this drill is waiting for its decision.',
    );
    await expect(page.getByRole('button', { name: 'Hand in for a verdict' })).toHaveCount(0);
    await page.goto(new URL(`/#/run/${fresh}`, page.url()).href);
    const submitted = await hold(page, 'submitRun');
    await pressTwice(page, page.getByRole('button', { name: 'Hand in for a verdict' }), submitted);
    submitted.letGo();
    await expect(page.getByText('Handed in. An assessor will decide on it.')).toBeFocused();
    await arriveAs(page, yard.assessorIds[0] as string, 'queue');
    await expectQueue(page, [panel, leaning, fresh]);
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
