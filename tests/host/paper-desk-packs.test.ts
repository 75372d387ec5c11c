// Drill packs out of one yard and into another, through the contract.
import { expect, test } from 'vitest';
import type { ParsedRequest, Reply } from '../../electron/contract.ts';
import { encodePack } from '../../electron/host/papers/drill-pack.ts';
import { cutSampleRun } from './cut-sample-run.ts';
import { endOfJob } from './job-ends.ts';
import { SAMPLE_DRILL } from './sample-hand.ts';
import { openYardWithRoles, type YardWithRoles } from './yard-with-roles.ts';

/** An own drill of that id, not the same as the shipped one it is made from. */
async function ownDrill({ instructor }: YardWithRoles, id: string, title: string): Promise<string> {
  const { text } = await instructor.ask('getDrill', { id: SAMPLE_DRILL });
  return JSON.stringify({ ...(JSON.parse(text) as object), id, title });
}

function packOf(file: Reply<'exportPack'>): string {
  if (file.outcome !== 'text') throw new Error(`The file was ${file.outcome}.`);
  expect(file.fileName).toBe('bay-two.kerfhand-pack');
  return file.text;
}

async function importPack({ instructor }: YardWithRoles, request: { text: string; choices?: Record<string, PackChoice> }) {
  return await endOfJob(instructor, await instructor.ask('importPack', request));
}
type PackChoice = NonNullable<ParsedRequest<'importPack'>['choices'][string]>;

test('a pack with its demonstration goes to another yard, and nothing there is overwritten unasked', async () => {
  const from = await openYardWithRoles();
  const to = await openYardWithRoles();
  await from.instructor.ask('importDrill', { text: await ownDrill(from, 'yard-tab', 'Yard tab') });
  const runId = await cutSampleRun(from.instructor, { drillId: 'yard-tab' });
  const { drill } = await from.instructor.ask('getDrill', { id: 'yard-tab' });
  await from.instructor.ask('keepDemonstration', { hash: drill.hash, runId });
  await from.instructor.ask('importDrill', { text: await ownDrill(from, 'yard-clip', 'Yard clip') });
  const drillIds = ['yard-tab', 'yard-clip', SAMPLE_DRILL];
  const text = packOf(await from.instructor.ask('exportPack', { title: 'Bay two', drillIds }));

  await to.instructor.ask('importDrill', { text: await ownDrill(to, 'yard-clip', 'Our own clip') });
  const before = await to.instructor.ask('listDrills', {});
  const preview = await to.instructor.ask('previewPack', { text });
  expect(preview.rows.map(({ id, kind, here, choices }) => [id, kind, here, choices[0]])).toEqual([
    ['yard-tab', 'new', null, 'add'],
    ['yard-clip', 'clash', 'Our own clip', 'leave'],
    [SAMPLE_DRILL, 'same', expect.any(String), 'leave'],
  ]);
  expect(await to.instructor.ask('listDrills', {})).toEqual(before);
  const wrong = await importPack(to, { text, choices: { 'yard-clip': 'add' } });
  expect(wrong).toMatchObject({ state: 'failed', taken: null, problem: expect.stringContaining('yard-clip') });
  expect(await to.instructor.ask('listDrills', {})).toEqual(before);

  const { taken, done, total } = await importPack(to, { text, choices: { 'yard-clip': 'keep-both' } });
  expect([done, total]).toEqual([2, 2]);
  expect(taken).toEqual([
    expect.objectContaining({ choice: 'add', id: 'yard-tab', hash: drill.hash, demonstration: 'kept', reason: null }),
    expect.objectContaining({ choice: 'keep-both', packId: 'yard-clip', id: 'yard-clip-2', demonstration: 'left-out' }),
  ]);
  const titles = new Map((await to.instructor.ask('listDrills', {})).drills.map(({ id, title }) => [id, title]));
  expect([titles.get('yard-tab'), titles.get('yard-clip'), titles.get('yard-clip-2')]).toEqual([
    ...['Yard tab', 'Our own clip', 'Yard clip'],
  ]);
  const shown = await to.apprentice.ask('getDemonstration', { hash: drill.hash });
  expect((await to.apprentice.ask('getRun', { runId: shown.runId ?? '' })).drillHash).toBe(drill.hash);
  const { entries } = await to.instructor.ask('listLedger', { kinds: ['import'], subject: 'drill-pack' });
  expect(entries.map(({ who, body }) => [who, (body.drills as object[]).length])).toEqual([[to.ids.instructor, 2]]);
  expect((await to.instructor.ask('checkLedger', {})).ok).toBe(true);

  // A second time there is nothing new, and nothing is written.
  expect((await to.instructor.ask('previewPack', { text })).rows[0]).toMatchObject({ kind: 'same' });
  expect((await importPack(to, { text })).taken).toEqual([]);
  expect((await to.instructor.ask('listLedger', { kinds: ['import'], subject: 'drill-pack' })).total).toBe(1);
});

test('a drill that cannot be cut stands as wrong in the preview and is not taken in, asked for or not', async () => {
  const yard = await openYardWithRoles();
  const { instructor } = yard;
  const thick = JSON.parse(await ownDrill(yard, 'own-slab', 'Slab'));
  thick.plate.thicknessMm = 40;
  const about = { title: 'Slabs', about: '', madeAt: '2030-02-01T10:15:00.000Z' };
  const text = encodePack(about, [{ text: JSON.stringify(thick), earlier: [], demonstration: null }]);
  expect((await instructor.ask('previewPack', { text })).rows).toEqual([
    expect.objectContaining({
      kind: 'wrong',
      id: 'own-slab',
      reason: expect.stringMatching(/^The drill "Slab" cannot be cut as it stands\. At \$\.plate\.thicknessMm: Rig 60 at 45 A/),
      choices: ['leave'],
    }),
  ]);
  expect(await importPack(yard, { text })).toMatchObject({ state: 'done', taken: [] });
  expect(await importPack(yard, { text, choices: { 'own-slab': 'add' } })).toMatchObject({
    state: 'failed',
    problem: 'There is no good drill own-slab in this pack.',
  });
  expect((await instructor.ask('listDrills', {})).drills.some((drill) => drill.id === 'own-slab')).toBe(false);
});

test('a later version is told from a clash, and a changed file is refused', async () => {
  const from = await openYardWithRoles();
  const to = await openYardWithRoles();
  const pack = async () => packOf(await from.instructor.ask('exportPack', { title: 'Bay two', drillIds: ['yard-tab'] }));
  await from.instructor.ask('importDrill', { text: await ownDrill(from, 'yard-tab', 'Yard tab') });
  const first = await pack();
  await importPack(to, { text: first });
  await from.instructor.ask('importDrill', { text: await ownDrill(from, 'yard-tab', 'Yard tab, wider'), onConflict: 'replace' });
  const second = await pack();
  expect((await to.instructor.ask('previewPack', { text: second })).rows[0]).toMatchObject({ kind: 'newer', here: 'Yard tab' });
  await importPack(to, { text: second, choices: { 'yard-tab': 'replace' } });
  expect((await to.instructor.ask('getDrill', { id: 'yard-tab' })).drill.title).toBe('Yard tab, wider');
  expect((await to.instructor.ask('previewPack', { text: first })).rows[0]).toMatchObject({ kind: 'older' });
  const changed = second.replace('Yard tab, wider', 'Yard tab, wiser');
  expect((await importPack(to, { text: changed })).problem).toMatch(/^The pack is not as it was written/);
  expect(await to.instructor.refusal('exportPack', { title: 'Bay two', drillIds: ['nobody-has-this'] })).toMatch(/^not-found: /);
});

test('stopped before its drills are written, a pack leaves nothing of itself', async () => {
  const from = await openYardWithRoles();
  const to = await openYardWithRoles();
  await from.instructor.ask('importDrill', { text: await ownDrill(from, 'yard-tab', 'Yard tab') });
  const runId = await cutSampleRun(from.instructor, { drillId: 'yard-tab' });
  const { drill } = await from.instructor.ask('getDrill', { id: 'yard-tab' });
  await from.instructor.ask('keepDemonstration', { hash: drill.hash, runId });
  const text = packOf(await from.instructor.ask('exportPack', { title: 'Bay two', drillIds: ['yard-tab'] }));
  const before = await to.instructor.ask('listDrills', {});
  const job = await to.instructor.ask('importPack', { text });
  await to.instructor.ask('stopJob', { jobId: job.id });
  expect(await endOfJob(to.instructor, job)).toMatchObject({ kind: 'import-pack', state: 'stopped', taken: null });
  expect(await to.instructor.ask('listDrills', {})).toEqual(before);
  expect((await to.instructor.ask('listRuns', {})).total).toBe(0);
  expect((await to.instructor.ask('listLedger', { kinds: ['import'] })).total).toBe(0);
  expect((await importPack(to, { text })).taken).toHaveLength(1);
});
