import { setTimeout as wait } from 'node:timers/promises';
import type { Answer, PaperJob, Reply, Request } from '../../electron/contract.ts';
import { decodeHandLog, readHandTick } from '../../sim-core/index.ts';
import { CHUNK_TICKS, sampleBegin, sampleChunk, sampleFinish, sampleTick } from '../host/sample-hand.ts';
import type { FaultHost } from './fault-host.ts';

export const PASSPHRASE = 'slipway at low water';
const JOB_LOOK_MS = 5;

/** What a yard's client was told is on disk. A later start must show every bit of it. */
export interface Acknowledged {
  people: Set<string>;
  groups: Map<string, string>;
  /** Ticks of each run that were acknowledged; whether it was acknowledged as finished. */
  runs: Map<string, { ticks: number; finished: boolean }>;
  drills: Set<string>;
  /** The last acknowledged name of the yard, and one that was asked for and not answered. */
  yardName: string | null;
  askedName: string | null;
  /** How many writes were acknowledged. */
  writes: number;
}

export function nothingYet(): Acknowledged {
  return {
    ...{ people: new Set(), groups: new Map(), runs: new Map(), drills: new Set() },
    ...{ yardName: null, askedName: null, writes: 0 },
  };
}

/** Cuts runs one after another until it is killed. */
export async function practise(host: FaultHost, acked: Acknowledged): Promise<never> {
  for (;;) {
    const { runId } = await host.ask('beginRun', sampleBegin());
    const run = { ticks: 0, finished: false };
    for (let sequence = 0; sequence < 24; sequence++) {
      const { tickCount } = await host.ask('appendToRun', sampleChunk(runId, sequence));
      run.ticks = tickCount;
      acked.runs.set(runId, run);
      acked.writes += 1;
    }
    await host.ask('finishRun', sampleFinish(runId, run.ticks));
    run.finished = true;
    acked.writes += 1;
  }
}

/** People, groups, settings and own drills, one after another until it is killed. */
export async function saveThings(host: FaultHost, acked: Acknowledged, kill: number): Promise<never> {
  const { text } = await host.ask('getDrill', { id: 'hanger-tab-straight-6' });
  for (let turn = 0; ; turn++) {
    const person = await host.ask('createPerson', { role: 'apprentice' });
    acked.people.add(person.id);
    acked.writes += 1;
    acked.askedName = `Yard ${kill}-${turn}`;
    const { yardName } = await host.ask('setSettings', { yardName: acked.askedName });
    acked.yardName = yardName;
    acked.writes += 1;
    const name = `Group ${kill}-${turn}`;
    const group = await host.ask('saveGroup', { groupId: null, name, memberIds: [person.id] });
    acked.groups.set(group.id, name);
    acked.writes += 1;
    const id = `own-${kill}-${turn}`;
    await host.ask('importDrill', {
      text: JSON.stringify({ ...(JSON.parse(text) as object), id, title: `Own ${kill} ${turn}` }),
    });
    acked.drills.add(id);
    acked.writes += 1;
  }
}

/** Files that are taken in: a pack, a roster, a run file. `files` are made by `importable`. */
export async function takeIn(host: FaultHost, acked: Acknowledged, files: Importable): Promise<never> {
  for (let turn = 0; ; turn++) {
    const pack = files.packs[turn % files.packs.length] as Importable['packs'][number];
    const job = await endOfJob(host, await host.ask('importPack', { text: pack.text, choices: {} }));
    if (job.state !== 'done') throw new Error(`importPack: ${job.problem}`);
    for (const id of pack.ids) acked.drills.add(id);
    acked.writes += 1;
    const groups = `Roster ${turn}`;
    await host.ask('importRoster', { text: `role,number,groups\napprentice,${500 + turn},${groups}\n` });
    acked.groups.set(groups, groups);
    acked.writes += 1;
    const { run } = await host.ask('importRun', { text: files.run });
    acked.runs.set(run.id, { ticks: run.tickCount, finished: true });
    acked.writes += 1;
  }
}

/** Backups one after another, each fetched, while people are added in between. */
export async function backUpAgain(host: FaultHost, acked: Acknowledged): Promise<never> {
  for (;;) {
    await makeBackup(host);
    acked.writes += 1;
    acked.people.add((await host.ask('createPerson', { role: 'apprentice' })).id);
    acked.writes += 1;
  }
}

export interface Importable {
  packs: { text: string; ids: string[] }[];
  run: string;
}

/** Packs and a run file, made by a yard of their own. */
export async function importable(host: FaultHost): Promise<Importable> {
  await signIn(host);
  const { text } = await host.ask('getDrill', { id: 'hanger-tab-straight-6' });
  const packs: Importable['packs'] = [];
  for (let number = 0; number < 6; number++) {
    const ids = [`packed-${number}-a`, `packed-${number}-b`];
    for (const id of ids)
      await host.ask('importDrill', { text: JSON.stringify({ ...(JSON.parse(text) as object), id, title: id }) });
    packs.push({ text: textOf(await host.ask('exportPack', { title: `Pack ${number}`, drillIds: ids })), ids });
  }
  const { runId } = await host.ask('beginRun', sampleBegin());
  await host.ask('appendToRun', sampleChunk(runId, 0));
  await host.ask('finishRun', sampleFinish(runId, CHUNK_TICKS));
  return { packs, run: textOf(await host.ask('exportRun', { runId })) };
}

function textOf(file: Reply<'exportRun'>): string {
  if (file.outcome !== 'text') throw new Error(`The file was ${file.outcome}.`);
  return file.text;
}

/** A backup of the yard, made and fetched. */
export async function makeBackup(host: FaultHost): Promise<Buffer> {
  const begun = await host.ask('backUp', {});
  if (begun.outcome !== 'started') throw new Error('No backup was begun.');
  const job = await endOfJob(host, begun.job);
  if (job.state !== 'done') throw new Error(`backUp: ${job.problem}`);
  const parts: Buffer[] = [];
  for (let offset: number | null = 0; offset !== null; ) {
    const read: Reply<'readJobFile'> = await host.ask('readJobFile', { jobId: job.id, offset });
    parts.push(Buffer.from(read.piece, 'base64'));
    offset = read.nextOffset;
  }
  return Buffer.concat(parts);
}

export async function signIn(host: FaultHost): Promise<void> {
  const { rolesBind, withPassphrase } = await host.ask('whoAmI', {});
  const personId = withPassphrase[0];
  if (!rolesBind || personId === undefined) await host.ask('makeFirstInstructor', { passphrase: PASSPHRASE });
  else await host.ask('signIn', { personId, passphrase: PASSPHRASE });
}

async function endOfJob(host: FaultHost, job: PaperJob): Promise<PaperJob> {
  let last = job;
  while (last.state === 'running') {
    await wait(JOB_LOOK_MS);
    last = await host.ask('getJob', { jobId: job.id });
  }
  return last;
}

/** What was acknowledged and is not there, in sentences. */
export async function missing(host: FaultHost, acked: Acknowledged): Promise<string[]> {
  const lost: string[] = [];
  const need = (there: boolean, what: string) => {
    if (!there) lost.push(what);
  };
  const { people } = await host.ask('listPeople', {});
  const ids = new Set(people.map((person) => person.id));
  for (const id of acked.people) need(ids.has(id), `person ${id}`);
  if (acked.groups.size > 0) {
    await signIn(host);
    const { groups } = await host.ask('listGroups', {});
    for (const name of acked.groups.values())
      need(
        groups.some((group) => group.name === name),
        `group ${name}`,
      );
  }
  const { drills } = await host.ask('listDrills', {});
  const shelf = new Set(drills.map((drill) => drill.id));
  for (const id of acked.drills) need(shelf.has(id), `drill ${id}`);
  if (acked.yardName !== null) {
    const { yardName } = await host.ask('getSettings', {});
    need(yardName === acked.yardName || yardName === acked.askedName, `the yard's name ${acked.yardName}, which is ${yardName}`);
  }
  // In a yard with roles a run of nobody is shown to staff only.
  if (acked.runs.size > 0 && (await host.ask('whoAmI', {})).rolesBind) await signIn(host);
  for (const [runId, { ticks, finished }] of acked.runs)
    lost.push(...lostOfRun(await runOf(host, runId), runId, ticks, finished));
  return lost;
}

function runOf(host: FaultHost, runId: string): Promise<Answer<'getRun'>> {
  return host.call('getRun', { runId } satisfies Request<'getRun'>);
}

function lostOfRun(answer: Answer<'getRun'>, runId: string, ticks: number, finished: boolean): string[] {
  if (!answer.ok) return [`run ${runId}: ${answer.error.message}`];
  const run = answer.reply;
  const lost: string[] = [];
  if (finished && run.state !== 'finished') lost.push(`run ${runId} was finished and is ${run.state}`);
  if (run.state === 'open') lost.push(`run ${runId} is open, and nobody cuts it`);
  if (run.tickCount < ticks) lost.push(`run ${runId}: ${ticks - run.tickCount} ticks of ${ticks}`);
  const log = decodeHandLog(new Uint8Array(Buffer.from(run.inputs, 'base64')));
  const tick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 as const };
  if (log.length !== run.tickCount) lost.push(`run ${runId}: ${log.length} ticks are kept of ${run.tickCount}`);
  for (let index = 0; index < log.length; index++) {
    readHandTick(log, index, tick);
    if (JSON.stringify(tick) !== JSON.stringify(sampleTick(index))) return [...lost, `run ${runId}: tick ${index} is another`];
  }
  return lost;
}
