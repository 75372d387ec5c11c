// A killed process must lose nothing that it acknowledged, and must not keep the next one out. The kill is a real SIGKILL at an
// arbitrary moment while chunks are being committed as fast as they go; power loss is what synchronous=FULL is for and cannot be
// tried here.
import { spawn } from 'node:child_process';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { expect, test } from 'vitest';
import { decodeHandLog, readHandTick } from '../../sim-core/index.ts';
import { openTestHost, temporaryFolder } from './open-test-host.ts';
import { CHUNK_TICKS, SCENARIOS, sampleTick } from './sample-hand.ts';

const KILLS = 24;
const LONGEST_MS = 120;

/** Starts the child, kills it `afterMs` after its first acknowledgement, and gives the run and the chunks it had acknowledged. */
async function cutUntilKilled(folder: string, afterMs: number): Promise<{ runId: string; acknowledged: number }> {
  const child = spawn(process.execPath, [path.join(import.meta.dirname, 'spooling-child.ts'), folder, SCENARIOS], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let runId = '';
  let acknowledged = 0;
  for await (const line of createInterface({ input: child.stdout })) {
    const [what, value] = line.split(' ');
    if (what === 'run') runId = value ?? '';
    if (what !== 'ack') continue;
    if (acknowledged === 0) setTimeout(() => child.kill('SIGKILL'), afterMs);
    acknowledged = Number(value) + 1;
  }
  expect(child.signalCode ?? (await new Promise((resolve) => child.once('exit', (_code, signal) => resolve(signal))))).toBe(
    'SIGKILL',
  );
  return { runId, acknowledged };
}

test(`${KILLS} kills in mid-run lose no acknowledged chunk`, async () => {
  const folder = temporaryFolder();
  let chunks = 0;
  for (let kill = 0; kill < KILLS; kill++) {
    // Spread over the range by the golden ratio: every part of a commit is hit sooner or later.
    const { runId, acknowledged } = await cutUntilKilled(folder, ((kill * 0.618034) % 1) * LONGEST_MS);
    chunks += acknowledged;

    const host = await openTestHost({ folder });
    const run = await host.ask('getRun', { runId });
    expect(run.state).toBe('unfinished');
    expect(run.endedAt).not.toBeNull();
    expect(run.tickCount % CHUNK_TICKS).toBe(0);
    expect(run.tickCount).toBeGreaterThanOrEqual(acknowledged * CHUNK_TICKS);
    const log = decodeHandLog(new Uint8Array(Buffer.from(run.inputs, 'base64')));
    expect(log.length).toBe(run.tickCount);
    const tick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 as const };
    for (let index = 0; index < log.length; index++) {
      const expected = sampleTick(index);
      readHandTick(log, index, tick);
      if (tick.x !== expected.x || tick.y !== expected.y || tick.leanX !== expected.leanX) expect(tick).toEqual(expected);
    }
    expect((await host.ask('getSession', {})).notices.map((notice) => notice.code)).toEqual(['runs-recovered']);
    expect((await host.ask('listRuns', {})).total).toBe(kill + 1);
    await host.close();
  }
  expect(chunks).toBeGreaterThan(KILLS);
});
