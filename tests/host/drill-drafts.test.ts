// A drill that was only saved to be tried is there for staff; apprentices go on with what is on the shelf until it is kept.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import type { Reply } from '../../electron/contract.ts';
import { SAMPLE_DRILL, SCENARIOS, sampleBegin } from './sample-hand.ts';
import { openYardWithRoles } from './yard-with-roles.ts';

const ID = 'own-tab';
const shipped = JSON.parse(readFileSync(path.join(SCENARIOS, `${SAMPLE_DRILL}.json`), 'utf8')) as object;
const variant = (title: string) => JSON.stringify({ ...shipped, id: ID, title });

test('a draft of a new drill and of a changed one, from being tried to being kept', async () => {
  const { instructor, assessor, apprentice, nobody, ids } = await openYardWithRoles();
  type Saved = Extract<Reply<'saveDrill'>, { hash: string }>;
  const save = async (title: string, replaces: string | null, draft: boolean) =>
    (await instructor.ask('saveDrill', { text: variant(title), replaces, draft })) as Saved;
  const shown = async (page: typeof instructor) =>
    (await page.ask('listDrills', {})).drills.filter(({ id }) => id === ID).map(({ title, draft }) => [title, draft]);

  const first = await save('First', null, true);
  expect(first).toMatchObject({ outcome: 'saved', number: 1 });
  expect(await save('First', null, true)).toEqual({ ...first, outcome: 'same' });
  for (const page of [instructor, assessor]) expect(await shown(page)).toEqual([['First', true]]);
  for (const page of [apprentice, nobody]) {
    expect(await shown(page)).toEqual([]);
    expect(await page.refusal('getDrill', { id: ID })).toMatch(/^not-found/);
    expect(await page.refusal('getDrill', { hash: first.hash })).toMatch(/^not-found/);
    expect(await page.refusal('beginRun', { ...sampleBegin(), drillId: ID })).toMatch(/^not-found/);
    expect(await page.refusal('beginRun', { ...sampleBegin(), drillId: ID, drillHash: first.hash })).toMatch(/^not-found/);
  }
  // It can be tried, and neither assigned, nor packed, nor written over without a word.
  await instructor.ask('beginRun', { ...sampleBegin(), drillId: ID });
  const assign = { title: 'Test', drillIds: [ID], personIds: [ids.apprentice] };
  expect(await instructor.refusal('assign', assign)).toMatch(/^not-found/);
  expect(await instructor.refusal('exportPack', { title: 'Own', drillIds: [ID] })).toMatch(/^not-found/);
  expect(await instructor.refusal('importDrill', { text: variant('From a file') })).toMatch(/^conflict/);

  expect(await save('First', first.hash, false)).toMatchObject({ outcome: 'saved', hash: first.hash, number: 1 });
  expect(await shown(apprentice)).toEqual([['First', false]]);
  const { id: assignmentId } = await instructor.ask('assign', assign);

  const second = await save('Second', first.hash, true);
  expect(await shown(instructor)).toEqual([['Second', true]]);
  expect(await shown(apprentice)).toEqual([['First', false]]);
  expect((await apprentice.ask('beginRun', { ...sampleBegin(), drillId: ID, personId: ids.apprentice })).drillHash).toBe(
    first.hash,
  );
  // Back to what is assigned, as a draft: those it was given to still have it.
  await save('First', second.hash, true);
  const begun = await apprentice.ask('beginRun', { ...sampleBegin(), drillId: ID, personId: ids.apprentice, assignmentId });
  expect(begun.drillHash).toBe(first.hash);
  await save('Second', first.hash, false);
  for (const page of [instructor, apprentice]) expect(await shown(page)).toEqual([['Second', false]]);
  const { versions } = await instructor.ask('listDrillVersions', { id: ID });
  expect(versions.map(({ title, current }) => [title, current])).toEqual([
    ['Second', true],
    ['First', false],
  ]);
  expect(await save('Second', second.hash, true)).toMatchObject({ outcome: 'same' });
  expect(await shown(apprentice)).toEqual([['Second', false]]);
});
