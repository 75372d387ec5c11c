import { performance } from 'node:perf_hooks';
import { encodeRunFile, runFileOf, runHand, TICK_HZ, windowOfDrill } from '../../sim-core/index.ts';
import { atomicWrite } from '../host/atomic-write.ts';
import { HostError } from '../host/host-error.ts';
import { CommandError } from './command-error.ts';
import { loadDrill } from './drill-file.ts';
import { BUILT_IN_HANDS, loadHand } from './hand-file.ts';
import { optionalFigure } from './read-flags.ts';
import { scoreText } from './score-words.ts';
import { shown } from './shown.ts';
import type { Verb } from './verb.ts';

export const simulateVerb: Verb = {
  name: 'simulate',
  usage: `simulate DRILL --hand ${BUILT_IN_HANDS.join('|')}|FILE [--seed N] [--out RUN] [--json]`,
  summary: 'Runs a hand on a drill without a window, writes the run file and gives the marks.',
  flags: { hand: { type: 'string', default: 'reference' }, seed: { type: 'string' }, out: { type: 'string' } },
  words: ['DRILL'],
  run(flags) {
    const { drill, text: drillText } = loadDrill(flags.words[0]);
    const seed = optionalFigure(flags, 'seed', 0, 4294967295) ?? 1;
    if (!Number.isInteger(seed)) throw new CommandError(`The seed must be a whole number and is ${seed}.`);
    // The window is searched before the clock starts: the factor is that of the run.
    const window = windowOfDrill(drill);
    const { script, ...answers } = loadHand(flags.text('hand') ?? 'reference', drill, window);
    const began = performance.now();
    const run = runHand(drill, script, seed, answers);
    const tookS = (performance.now() - began) / 1000;
    const out = flags.text('out');
    if (out !== undefined) {
      writeRun(out, encodeRunFile(runFileOf(run, drillText, script.name)));
    }
    const seconds = run.log.length / TICK_HZ;
    const { score } = run;
    const json = { ...score, digest: run.finalDigest, seconds, realTimeFactor: seconds / tookS };
    const times = `${shown(seconds)} s of cutting, ${shown(seconds / tookS)} times as fast as life, digest ${run.finalDigest}`;
    return { json, text: `${script.name} on ${drill.title}\n${scoreText(score)}\n${times}` };
  },
};

function writeRun(file: string, text: string): void {
  try {
    atomicWrite(file, text);
  } catch (error) {
    if (error instanceof HostError) throw new CommandError(error.message);
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    if (code === '') throw error;
    throw new CommandError(code === 'ENOENT' ? `There is no folder for ${file}.` : `${file} cannot be written (${code}).`);
  }
}
