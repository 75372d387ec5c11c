import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { openTestHost, temporaryFolder } from './open-test-host.ts';
import { SAMPLE_DRILL, SCENARIOS, sampleBegin } from './sample-hand.ts';
import { openYardWithRoles } from './yard-with-roles.ts';

const shippedText = readFileSync(path.join(SCENARIOS, `${SAMPLE_DRILL}.json`), 'utf8');
const variant = (changes: object) => JSON.stringify({ ...JSON.parse(shippedText), ...changes });
const own = variant({ id: 'own-tab', title: 'Own tab' });

test('every shipped drill is on the shelf', async () => {
  const host = await openTestHost();
  const { drills } = await host.ask('listDrills', {});
  const files = readdirSync(SCENARIOS).filter((name) => name.endsWith('.json') && !name.endsWith('.schema.json'));
  expect(drills.map((drill) => `${drill.id}.json`)).toEqual(files.sort());
  expect(drills.every((drill) => drill.source === 'shipped')).toBe(true);
  expect((await host.ask('getSession', {})).notices).toEqual([]);
  expect((await host.ask('getDrill', { id: SAMPLE_DRILL })).text).toBe(shippedText);
});

test('a shipped drill that cannot be read is left out with a notice, the others stay', async () => {
  const scenariosFolder = temporaryFolder();
  // A name as long as a system lets it be: the notice that holds it comes all the same.
  const longName = `a${'-broken'.repeat(30)}.json`;
  writeFileSync(path.join(scenariosFolder, longName), '{"format": "kerfhand-drill", "formatVersion": 2}');
  writeFileSync(path.join(scenariosFolder, 'b-good.json'), own);
  writeFileSync(path.join(scenariosFolder, 'c-same-id.json'), own);
  const host = await openTestHost({ scenariosFolder });
  expect((await host.ask('listDrills', {})).drills.map((drill) => drill.id)).toEqual(['own-tab']);
  const { notices } = await host.ask('getSession', {});
  expect(notices.map((notice) => notice.code)).toEqual(['drill-skipped', 'drill-skipped']);
  expect(notices[0]?.message).toMatch(
    /^The shipped drill a(-broken){30}\.json was left out: At \$\.\w+: .* \(and \d+ more problems\)$/,
  );
  expect(notices[1]?.message).toBe('The shipped drill c-same-id.json was left out: its id own-tab belongs to another drill.');
});

test('an own drill is added, found the same again however it is laid out, and outlasts the host', async () => {
  const folder = temporaryFolder();
  const first = await openTestHost({ folder });
  const added = await first.ask('importDrill', { text: own });
  expect(added).toMatchObject({ outcome: 'added', drill: { id: 'own-tab', title: 'Own tab', source: 'own' } });
  expect((await first.ask('importDrill', { text: JSON.stringify(JSON.parse(own), null, 4) })).outcome).toBe('same');
  expect((await first.ask('importDrill', { text: shippedText })).outcome).toBe('same');
  await first.close();
  const second = await openTestHost({ folder });
  expect((await second.ask('listDrills', {})).drills.at(-1)).toEqual(added.drill);
  expect((await second.ask('getDrill', { hash: added.drill.hash })).text).toBe(own);
});

test('nothing is overwritten silently: refuse, replace and keep-both', async () => {
  const host = await openTestHost();
  const first = await host.ask('importDrill', { text: own });
  const { runId } = await host.ask('beginRun', { ...sampleBegin(), drillId: 'own-tab' });
  const changed = variant({ id: 'own-tab', title: 'Own tab, changed' });
  expect(await host.refusal('importDrill', { text: changed })).toMatch(
    /^conflict: There is a different drill with the id own-tab/,
  );
  expect((await host.ask('getDrill', { id: 'own-tab' })).text).toBe(own);

  // A byte order mark, as some editors leave one, is no part of the drill.
  const both = await host.ask('importDrill', { text: `\uFEFF${changed}`, onConflict: 'keep-both' });
  expect(both).toMatchObject({ outcome: 'renamed', drill: { id: 'own-tab-2', title: 'Own tab, changed' } });

  expect((await host.ask('importDrill', { text: changed, onConflict: 'replace' })).outcome).toBe('replaced');
  expect((await host.ask('getDrill', { id: 'own-tab' })).text).toBe(changed);
  // The version that a run was made with stays.
  expect((await host.ask('getDrill', { hash: first.drill.hash })).text).toBe(own);
  expect((await host.ask('getRun', { runId })).drillText).toBe(own);

  const posing = variant({ title: 'Posing as a shipped one' });
  expect(await host.refusal('importDrill', { text: posing, onConflict: 'replace' })).toMatch(/^conflict: .*never replaced/);
  expect((await host.ask('importDrill', { text: posing, onConflict: 'keep-both' })).drill.id).toBe(`${SAMPLE_DRILL}-2`);
  expect((await host.ask('getDrill', { id: SAMPLE_DRILL })).text).toBe(shippedText);
});

test('a run can be begun with an old version by its hash, never with the version of another drill', async () => {
  const host = await openTestHost();
  const { drill } = await host.ask('importDrill', { text: own });
  await host.ask('importDrill', { text: variant({ id: 'own-tab', title: 'Newer' }), onConflict: 'replace' });
  const begun = await host.ask('beginRun', { ...sampleBegin(), drillId: 'own-tab', drillHash: drill.hash });
  expect(begun.drillText).toBe(own);
  expect(await host.refusal('beginRun', { ...sampleBegin(), drillHash: drill.hash })).toMatch(
    /^bad-request: .*is of own-tab, not of/,
  );
});

test('a broken or newer drill is refused with place and reason and leaves nothing behind', async () => {
  const host = await openTestHost();
  const before = await host.ask('listDrills', {});
  expect(await host.refusal('importDrill', { text: '{"format": ' })).toMatch(/^bad-file: At line 1/);
  expect(await host.refusal('checkDrill', { text: variant({ rig: { class: '60', currentA: 'much' } }) })).toMatch(
    /^bad-file: At \$\.rig\.currentA: /,
  );
  expect(await host.refusal('importDrill', { text: variant({ formatVersion: 99 }) })).toMatch(/^newer-version: .*99.*2/);
  expect(await host.refusal('importDrill', { text: 'x'.repeat(600_000) })).toMatch(/^bad-request/);
  expect(await host.ask('checkDrill', { text: own })).toEqual({ id: 'own-tab', title: 'Own tab' });
  expect(await host.ask('listDrills', {})).toEqual(before);
});

test('a drill file that cannot be cut is refused as the builder refuses it; one that comes in stands in the ledger', async () => {
  const { instructor, nobody, ids } = await openYardWithRoles();
  // What a page says of speeds decides nothing, neither against a good drill nor for a bad one.
  const { coreVersion } = await nobody.ask('getSession', {});
  const metal = { coreVersion, material: 'mild-steel', currentA: 45, rig: '60' } as const;
  const figures = { windowLowMmPerS: 5, windowHighMmPerS: 9, losingSpeedMmPerS: 12, edgeDwellS: 1, reason: null };
  const none = { windowLowMmPerS: null, windowHighMmPerS: null, losingSpeedMmPerS: null, edgeDwellS: null, reason: 'No.' };
  await nobody.ask('putSpeedWindow', { key: { ...metal, thicknessMm: 40 }, window: figures });
  await nobody.ask('putSpeedWindow', { key: { ...metal, thicknessMm: 6 }, window: none });
  const thick = JSON.parse(variant({ id: 'own-slab', title: 'Slab' }));
  thick.plate.thicknessMm = 40;
  const saved = await instructor.ask('saveDrill', { text: JSON.stringify(thick), replaces: null });
  if (saved.outcome !== 'refused') throw new Error(saved.outcome);
  const [problem] = saved.problems;
  const refusal = await instructor.refusal('importDrill', { text: JSON.stringify(thick) });
  expect(refusal).toContain(`bad-file: The drill "Slab" cannot be cut as it stands. At ${problem?.path}: ${problem?.sentence}`);
  expect((await instructor.ask('listDrills', {})).drills.some((drill) => drill.id === 'own-slab')).toBe(false);

  const text = variant({ id: 'own-tab', title: 'Own tab' });
  const { drill } = await instructor.ask('importDrill', { text });
  await instructor.ask('importDrill', { text });
  const newer = variant({ id: 'own-tab', title: 'Newer' });
  const next = await instructor.ask('importDrill', { text: newer, onConflict: 'replace' });
  const { entries } = await instructor.ask('listLedger', { kinds: ['drill-saved'] });
  expect(entries.map(({ who, subject, body }) => [who, subject, body.hash, body.replaces, body.from])).toEqual([
    [ids.instructor, 'own-tab', next.drill.hash, drill.hash, 'file'],
    [ids.instructor, 'own-tab', drill.hash, null, 'file'],
  ]);
});
