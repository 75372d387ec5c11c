// The worker of prove:fuzz: hostile inputs one after the other, told about as they are done. A hang or an end without a word is for
// the other side to notice.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parentPort, workerData } from 'node:worker_threads';
import { bombs } from '../security/hostile/bombs.ts';
import { goodFiles } from '../security/hostile/good-files.ts';
import { parsers } from '../security/hostile/parsers.ts';

export interface FuzzOrder {
  seed: number;
  /** Share of the full campaign, 1 = all of it. */
  part: number;
  /** ms since 1970; no further input is begun after it. */
  until: number;
}

/** What became of one kind of input. Times are of the processor, in ms. */
export interface FuzzTally {
  parser: string;
  inputs: number;
  read: number;
  refused: number;
  slowestMs: number;
}

export type FuzzWord =
  | { kind: 'at'; what: string }
  | { kind: 'finding'; what: string; error: string }
  | { kind: 'tally'; tally: FuzzTally }
  | { kind: 'end'; polluted: boolean };

const { seed, part, until } = workerData as FuzzOrder;
const say = (word: FuzzWord) => parentPort?.postMessage(word);
process.on('unhandledRejection', (error) =>
  say({ kind: 'finding', what: 'a rejection that nobody handled', error: String(error) }),
);

/** An error with the places in our own files that it came by; where they lie on this machine is nobody's business. */
function toldHere(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const root = new URL('../../', import.meta.url).href;
  const frames = (error.stack ?? '')
    .split('\n')
    .filter((line) => /^\s+at /.test(line) && line.includes(root) && !line.includes('/node_modules/'));
  return [`${error.name}: ${error.message}`, ...frames.map((line) => line.trim().replace(root, ''))].join('\n');
}

const folder = mkdtempSync(path.join(tmpdir(), 'kerfhand-fuzz-'));
try {
  const good = await goodFiles(folder);
  const all = parsers(good, folder);
  const loads = bombs(good);
  for (const { name, share, make, read } of all) {
    const random = { counter: seed };
    const tally: FuzzTally = { parser: name, inputs: 0, read: 0, refused: 0, slowestMs: 0 };
    const given = async (what: string, input: unknown) => {
      say({ kind: 'at', what: `${name}: ${what}` });
      const before = process.cpuUsage();
      try {
        tally[await read(input)]++;
      } catch (error) {
        say({ kind: 'finding', what: `${name}: ${what}`, error: toldHere(error) });
      }
      const { user, system } = process.cpuUsage(before);
      tally.slowestMs = Math.max(tally.slowestMs, Math.round((user + system) / 1000));
      tally.inputs++;
    };
    for (const bomb of loads) if (bomb.parser === name) await given(bomb.what, bomb.make());
    const inputs = Math.ceil(share * part);
    while (tally.inputs < inputs && Date.now() < until) await given(`input ${tally.inputs} of seed ${seed}`, make(random));
    say({ kind: 'tally', tally });
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
say({ kind: 'end', polluted: Object.keys(Object.prototype).length > 0 || 'polluted' in {} });
