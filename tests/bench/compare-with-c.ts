import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createKernelCase } from './kernel-case.ts';
import { type Spread, spreadOf, threadMs } from './statistics.ts';

/** The kernel in both languages, µs of processor time a tick; or why there is nothing to compare. */
export type KernelComparison =
  | { skipped: string }
  | { compiler: string; ticks: number; typescriptUs: Spread; cUs: Spread; ratio: Spread; sameBits: boolean; bytes: number };

const TICKS = 1200;
const ROUNDS = 15;
const FLAGS = ['-O3', '-ffp-contract=off', '-std=gnu11'];

function compile(folder: string): string | null {
  for (const compiler of ['cc', 'gcc', 'clang']) {
    try {
      execFileSync(compiler, [...FLAGS, '-o', path.join(folder, 'kernel'), path.join(import.meta.dirname, 'kernel.c'), '-lm'], {
        stdio: ['ignore', 'ignore', 'pipe'],
      });
      return `${compiler} ${FLAGS.join(' ')}`;
    } catch (error) {
      // Only a compiler that is not there is passed over; one that refuses the kernel is an error.
      if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    }
  }
  return null;
}

/** Runs both by turns, so that whatever else the machine does falls on both, and compares the fields at the end bit for bit. */
export function compareWithC(): KernelComparison {
  const folder = mkdtempSync(path.join(tmpdir(), 'kerfhand-bench-'));
  try {
    const compiler = compile(folder);
    if (!compiler) return { skipped: 'There is no C compiler on this machine (cc, gcc or clang).' };
    const work = createKernelCase(TICKS);
    work.run(threadMs);
    const input = path.join(folder, 'case');
    const output = path.join(folder, 'fields');
    writeFileSync(input, work.bytes(1));
    const inC = (): number => Number(execFileSync(path.join(folder, 'kernel'), [input, output], { encoding: 'utf8' })) * 1000;
    // The engine compiles what is hot first; C comes compiled.
    for (let n = 0; n < 5; n++) work.run(threadMs);
    const typescript: number[] = [];
    const c: number[] = [];
    for (let n = 0; n < ROUNDS; n++) {
      typescript.push((work.run(threadMs) * 1000) / TICKS);
      c.push((inC() * 1000) / TICKS);
    }
    const fields = work.fields().map((field) => new Uint8Array(field.buffer, field.byteOffset, field.byteLength));
    const ours = Buffer.concat(fields);
    const theirs = readFileSync(output);
    return {
      compiler,
      ticks: TICKS,
      typescriptUs: spreadOf(typescript),
      cUs: spreadOf(c),
      ratio: {
        ...spreadOf(typescript.map((us, n) => us / (c[n] ?? Number.NaN))),
        median: spreadOf(typescript).median / spreadOf(c).median,
      },
      sameBits: ours.equals(theirs),
      bytes: ours.length,
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
