import type { Page } from '@playwright/test';
import {
  appendHandTick,
  createHandLog,
  decodeHandLog,
  encodeHandLog,
  type FaultHandId,
  type HandTick,
  type RunFile,
  readHandTick,
  toBase64,
} from '../../sim-core/index.ts';
import { callHost, runOfHand } from './imported-run.ts';

/** Passphrase of everybody in these yards who needs one. */
export const PASSPHRASE = 'slipway gate at low tide';
/** Most ticks that the host takes in one chunk. */
const CHUNK_TICKS = 4800;

export interface Staffed {
  instructorId: string;
  assessorIds: string[];
  apprenticeIds: string[];
}

/** Sets up a yard with roles: Instructor 01, and as many assessors and apprentices as wanted. The instructor is signed in. */
export async function staffYard(page: Page, assessors: number, apprentices: number): Promise<Staffed> {
  const first = await callHost<{ person: { id: string } }>(page, 'makeFirstInstructor', { passphrase: PASSPHRASE });
  const add = async (role: string) => (await callHost<{ id: string }>(page, 'createPerson', { role })).id;
  const staff: Staffed = { instructorId: first.person.id, assessorIds: [], apprenticeIds: [] };
  for (let n = 0; n < assessors; n++) {
    const personId = await add('assessor');
    await callHost(page, 'setPassphrase', { personId, passphrase: PASSPHRASE });
    staff.assessorIds.push(personId);
  }
  for (let n = 0; n < apprentices; n++) staff.apprenticeIds.push(await add('apprentice'));
  return staff;
}

/** Sends a whole run to the host as the bench does, tick by tick; the id under which it is kept. The hand goes by the name `by`. */
export async function sendRun(page: Page, drillId: string, personId: string, run: RunFile, by = 'mouse'): Promise<string> {
  const { runId } = await callHost<{ runId: string }>(page, 'beginRun', {
    drillId,
    seed: run.seed,
    personId,
    hand: { kind: 'mouse', name: by },
    coreVersion: run.coreVersion,
    choices: run.choices,
  });
  const log = decodeHandLog(run.inputs);
  const tick: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  for (let firstTick = 0, sequence = 0; firstTick < log.length; firstTick += CHUNK_TICKS, sequence++) {
    const chunk = createHandLog();
    const end = Math.min(log.length, firstTick + CHUNK_TICKS);
    for (let n = firstTick; n < end; n++) appendHandTick(chunk, readHandTick(log, n, tick));
    const inputs = toBase64(encodeHandLog(chunk));
    await callHost(page, 'appendToRun', { runId, sequence, firstTick, tickCount: end - firstTick, inputs });
  }
  const { digests, finalDigest, diagnosis, score, trace } = run;
  await callHost(page, 'finishRun', { runId, tickCount: log.length, digests, finalDigest, diagnosis, score, trace });
  return runId;
}

/** An apprentice cuts a drill with a synthetic hand and hands the run in. They stay signed in. */
export async function handIn(
  page: Page,
  personId: string,
  drillId: string,
  fault: FaultHandId | null,
  seed: number,
): Promise<string> {
  await callHost(page, 'signIn', { personId });
  const runId = await sendRun(page, drillId, personId, runOfHand(drillId, fault, seed));
  await callHost(page, 'submitRun', { runId });
  return runId;
}

/** Signs a member of staff in and shows the page anew, so that it knows. */
export async function arriveAs(page: Page, personId: string, room: string): Promise<void> {
  await callHost(page, 'signIn', { personId, passphrase: PASSPHRASE });
  await page.goto(new URL(`/#/${room}`, page.url()).href);
  await page.reload();
  await page.getByRole('button', { name: 'Understood' }).click();
}
