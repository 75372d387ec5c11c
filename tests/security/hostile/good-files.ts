import { readFileSync } from 'node:fs';
import { mkdir, readFile, rm } from 'node:fs/promises';
import path from 'node:path';
import type { DemoYardFacts } from '../../../electron/contract.ts';
import { packDemoYard } from '../../../electron/host/demo-yard-file.ts';
import { openHost } from '../../../electron/host/host.ts';
import { RECORDS_FILE } from '../../../electron/host/open-records.ts';
import { backUpYard } from '../../../electron/host/papers/back-up-yard.ts';
import { encodePack } from '../../../electron/host/papers/drill-pack.ts';
import { encodeVerdict, signVerdict } from '../../../electron/host/papers/sign-verdict.ts';
import { makeSigningKey, type PublicKey, readPublicKey } from '../../../electron/host/papers/signing-key.ts';
import { decodeRunFile, encodeRunFile, type ReadRunFile } from '../../../sim-core/index.ts';
import { CHEAP_SCRYPT, pageOf } from '../../host/open-test-host.ts';
import { SAMPLE_CHOICES, SAMPLE_DIAGNOSIS, SAMPLE_HAND_SCALE, SCENARIOS } from '../../host/sample-hand.ts';
import { TEST_SCRYPT_N, verdictOn } from '../../papers/signed-run.ts';
import { drillText } from '../../scenarios/drill-files.ts';

const DRILLS = ['guard-patch-straight-3', 'hanger-tab-straight-6', 'bilge-tank-rig-check-3'];
const OLD = new URL('../../scenarios/old-files/', import.meta.url);
const PASSPHRASE = 'blue gangway, third plank';

/** One good file of every kind, small, for mutations to begin with. */
export interface GoodFiles {
  drills: string[];
  hands: string[];
  runs: string[];
  verdict: string;
  key: PublicKey;
  keyPem: string;
  roster: string;
  pack: string;
  backup: Buffer;
  records: Buffer;
  demoYard: Buffer;
}

const FACTS: DemoYardFacts = {
  ...{ coreVersion: '2.0.0', apprentices: 1, groups: 0, assessors: 0, instructors: 0, runs: 1, weeks: 1 },
  ...{ firstDay: '2030-01-07T08:00:00.000Z', lastDay: '2030-01-11T16:00:00.000Z' },
  entries: [{ name: 'Instructor 01', passphrase: 'three planks of oak' }],
};

/** A hand with every kind of step, place and speed. */
const HAND = {
  ...{ format: 'kerfhand-hand', formatVersion: 2, name: 'every-step', about: 'Does a little of everything.' },
  habits: { tremorMm: 0.2, leanTremorDeg: 1, wander: { amplitudeMm: 1, wavelengthMm: 30 }, bearsLeftMm: 1, reactionS: 0.2 },
  steps: [
    { do: 'place', at: { alongMm: -5 }, heightMm: 2, speed: { mmPerS: 50 } },
    { do: 'trigger', on: true },
    { do: 'wait', for: 'break-through', atMostS: 5 },
    { do: 'lean', travelAngleDeg: 5, workAngleDeg: -2, about: 'tip', overS: 0.5, meanwhile: true },
    { do: 'move', to: { alongShare: 0.5 }, speed: { inWindow: 0.5 } },
    { do: 'height', heightMm: 3, overS: 0.5 },
    { do: 'move', to: { xMm: 40, yMm: 20 }, speed: { timesMiddle: 0.9 } },
    { do: 'wait', for: 'seconds', seconds: 1 },
    { do: 'move', to: { pastEndMm: 4 }, speed: { mmPerS: 12 } },
    { do: 'trigger', on: false },
  ],
};

/** @param folder an empty one, which the files of the yard are made in */
export async function goodFiles(folder: string): Promise<GoodFiles> {
  const old = (name: string) => readFileSync(new URL(name, OLD), 'utf8');
  const run = old('run-version-2.kerfrun');
  const drills = [...DRILLS.map((id) => drillText(`${id}.json`)), old('drill-version-0.json'), old('drill-version-1.json')];
  const key = await makeSigningKey(PASSPHRASE, TEST_SCRYPT_N);
  const { backup, records } = await yardFiles(path.join(folder, 'good'), run);
  return {
    drills,
    hands: [JSON.stringify(HAND), old('hand-version-1.json')],
    runs: [run, measuredRun(run), old('run-version-1.kerfrun')],
    verdict: encodeVerdict(await signVerdict(verdictOn(run), key, PASSPHRASE)),
    key: readPublicKey(key.publicKeyPem),
    keyPem: key.publicKeyPem,
    roster: 'role,number,groups\r\napprentice,1,Night class|Slipway\r\ninstructor,1,\r\n"apprentice","2","Quay ""A"""\r\n',
    pack: encodePack({ title: 'Slipway pack', about: 'Two drills.', madeAt: '2030-02-01T10:15:00.000Z' }, [
      // The old run was cut on the drill as it was then, which it holds itself.
      { text: drillOf(run), earlier: ['0'.repeat(64)], demonstration: run },
      { text: drills[1]!, earlier: [], demonstration: null },
    ]),
    backup,
    records,
    demoYard: await packDemoYard(FACTS, backup),
  };
}

function readRun(text: string): ReadRunFile {
  const result = decodeRunFile(text);
  if (!result.ok) throw new Error(result.problems[0]!.sentence);
  return result.run;
}

const drillOf = (run: string) => readRun(run).drillText;

/** The same run with everything that a run file may hold. */
function measuredRun(text: string): string {
  return encodeRunFile({ ...readRun(text), choices: SAMPLE_CHOICES, diagnosis: SAMPLE_DIAGNOSIS, handScale: SAMPLE_HAND_SCALE });
}

/** A yard with people, groups, a run with a note and an entry of each kind that takes no time, as its records and as a backup. */
async function yardFiles(folder: string, run: string): Promise<{ backup: Buffer; records: Buffer }> {
  await mkdir(folder, { recursive: true });
  const options = {
    folder,
    scenariosFolder: SCENARIOS,
    shell: 'loopback',
    appVersion: '0.1.0',
    scryptCost: CHEAP_SCRYPT,
  } as const;
  const host = await openHost(options);
  const page = pageOf(host);
  await page.ask('makeFirstInstructor', { passphrase: PASSPHRASE });
  const apprentice = await page.ask('createPerson', { role: 'apprentice' });
  const { run: kept } = await page.ask('importRun', { text: run });
  await page.ask('addNote', { runId: kept.id, tick: 5, text: 'Stopped short of the edge.' });
  await page.ask('saveGroup', { groupId: null, name: 'Night class', memberIds: [apprentice.id] });
  await page.ask('assign', { title: 'This week', drillIds: [DRILLS[1]!], personIds: [apprentice.id] });
  await page.ask('setSettings', { yardName: 'Tidewater Row' });
  const file = path.join(folder, 'yard.kerfhand-backup');
  await backUpYard({ folder, to: file, appVersion: '0.1.0', madeAt: new Date('2030-02-01T10:15:00.000Z') });
  await host.close();
  const made = { backup: await readFile(file), records: await readFile(path.join(folder, RECORDS_FILE)) };
  await rm(folder, { recursive: true });
  return made;
}
