import type { Page } from '@playwright/test';
import { CORE_VERSION, parseDrill } from '../../sim-core/index.ts';
import { sampleInputs } from '../host/sample-hand.ts';
import { PASSPHRASE, type Staffed, sendRun } from './handed-in-run.ts';
import { callHost, importRun, runOfText, shippedDrill } from './imported-run.ts';

/** Drill that all of it is about. */
export const DRILL = 'hostile-patch';

/** Lets somebody save every text of the contract that can be saved; `text` gives one for its place. */
export async function fillWithWords(page: Page, yard: Staffed, text: (place: string) => string) {
  const [apprentice] = yard.apprenticeIds as [string];
  const [first, second] = yard.assessorIds as [string, string];
  const drill = JSON.parse(shippedDrill('guard-patch-straight-3')) as { card: object };
  const lines = (...names: string[]) => Object.fromEntries(names.map((name) => [name, text(`drill.card.${name}`)]));
  const drillText = JSON.stringify({
    ...drill,
    ...{ id: DRILL, title: text('drill.title') },
    card: { ...drill.card, ...lines('purpose', 'task', 'onRealPlate'), hints: [text('drill.card.hints')] },
  });
  const read = parseDrill(drillText);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  await callHost(page, 'saveDrill', { text: drillText, replaces: null });
  const { currency, ...prices } = (await callHost<{ prices: { currency: string } }>(page, 'getSettings', {})).prices;
  await callHost(page, 'setSettings', {
    yardName: text('setSettings.yardName'),
    prices: { ...prices, currency: currency && text('setSettings.prices.currency') },
  });
  await callHost(page, 'importRoster', {
    text: `role,number,groups\napprentice,1,"${text('roster.groups').replaceAll('"', '""')}"`,
  });
  const group = await callHost<{ id: string }>(page, 'saveGroup', {
    ...{ groupId: null, name: text('saveGroup.name'), memberIds: [apprentice] },
  });
  await callHost(page, 'assign', { title: text('assign.title'), drillIds: [DRILL], groupIds: [group.id] });
  const { material, thicknessMm } = read.value.plate;
  await callHost(page, 'putSpeedWindow', {
    key: { coreVersion: CORE_VERSION, material, thicknessMm, currentA: read.value.rig.currentA, rig: read.value.rig.class },
    window: {
      ...{ windowLowMmPerS: null, windowHighMmPerS: null, losingSpeedMmPerS: null, edgeDwellS: null },
      reason: text('putSpeedWindow.window.reason'),
    },
  });
  const foreignId = await importRun(page, { ...runOfText(drillText, null, 3), coreVersion: text('run.coreVersion') });
  const { text: pack } = await callHost<{ text: string }>(page, 'exportPack', {
    ...{ title: text('exportPack.title'), about: text('exportPack.about'), drillIds: [DRILL] },
  });

  await callHost(page, 'signIn', { personId: apprentice });
  const runId = await sendRun(page, DRILL, apprentice, runOfText(drillText, null, 1), text('beginRun.hand.name'));
  await callHost(page, 'submitRun', { runId });
  const strangeId = await strangeRun(page, apprentice, text);

  const overruled = async (place: string) => {
    const { scoreRecord } = await callHost<{ scoreRecord: { measures: { id: string }[] } }>(page, 'getRun', { runId });
    return [{ measureId: scoreRecord.measures[0]?.id, mark: 50, reason: text(`${place}.overruled[].reason`) }];
  };
  await callHost(page, 'signIn', { personId: first, passphrase: PASSPHRASE });
  await callHost(page, 'addNote', { runId, tick: 100, text: text('addNote.text') });
  await callHost(page, 'signVerdict', {
    ...{ runId, decision: 'not-yet-competent', reasons: text('signVerdict.reasons'), passphrase: PASSPHRASE },
    overruled: await overruled('signVerdict'),
  });
  await callHost(page, 'signIn', { personId: yard.instructorId, passphrase: PASSPHRASE });
  await callHost(page, 'correctEntry', { seq: 2, reason: text('correctEntry.reason') });
  const set = await callHost<{ id: string }>(page, 'makeModerationSet', {
    ...{ title: text('makeModerationSet.title'), runIds: [runId], firstId: first, secondId: second },
  });
  await callHost(page, 'signIn', { personId: first, passphrase: PASSPHRASE });
  await callHost(page, 'judgeBlind', {
    ...{ setId: set.id, runId, decision: 'competent', reasons: text('judgeBlind.reasons') },
    overruled: await overruled('judgeBlind'),
  });
  return { apprentice, first, second, runId, strangeId, foreignId, setId: set.id, pack };
}

/** A run whose marks go by names that the core does not know. */
async function strangeRun(page: Page, personId: string, text: (place: string) => string): Promise<string> {
  const { runId } = await callHost<{ runId: string }>(page, 'beginRun', {
    ...{ drillId: DRILL, seed: 2, personId, hand: { kind: 'mouse', name: 'mouse' } },
    coreVersion: CORE_VERSION,
  });
  await callHost(page, 'appendToRun', { runId, sequence: 0, firstTick: 0, tickCount: 240, inputs: sampleInputs(0, 240) });
  const columns = Buffer.from(new Float32Array([1, 2, 3]).buffer).toString('base64');
  await callHost(page, 'finishRun', {
    ...{ runId, tickCount: 240, digests: [], finalDigest: '00ff00ff00ff00ff' },
    score: { score: 50, passed: false, measures: [{ id: text('finishRun.score.measures[].id'), mark: 50, weight: 1 }] },
    trace: { hz: 30, fields: ['xMm'], columns },
  });
  return runId;
}
