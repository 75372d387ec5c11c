// npm run prove:fuzz: hostile inputs for every parser of foreign data. Each is read, or refused in words of ours; none takes long.
import { Worker } from 'node:worker_threads';
import { campaignOptions, keepEvidence } from './evidence.ts';
import type { FuzzOrder, FuzzTally, FuzzWord } from './fuzz-worker.ts';

const SEED = 20261129;
const INPUTS = 100_000;
const QUICK_PART = 0.01;
/** Longest that one input may keep the processor, ms. */
const HANG_MS = 1000;
/** An input that has not come back after so long never will, ms. */
const LOST_MS = 900_000;
/** Most memory of the whole process, MiB: what the largest bomb may unpack to, and the program itself. */
const MOST_MEBI = 1024;

const options = campaignOptions(90);
const part = options.quick ? QUICK_PART : 1;
const tallies: FuzzTally[] = [];
const findings: string[] = [];
let at = 'the start';
let ended = false;

await new Promise<void>((resolve) => {
  const order: FuzzOrder = { seed: SEED, part, until: Date.now() + options.minutes * 60_000 };
  const worker = new Worker(new URL('./fuzz-worker.ts', import.meta.url), {
    workerData: order,
    resourceLimits: { maxOldGenerationSizeMb: MOST_MEBI },
  });
  let lost: NodeJS.Timeout;
  const watch = () => {
    clearTimeout(lost);
    lost = setTimeout(() => {
      findings.push(`${at}: did not come back within ${LOST_MS / 1000} s`);
      void worker.terminate();
    }, LOST_MS);
  };
  watch();
  worker.on('message', (word: FuzzWord) => {
    watch();
    if (word.kind === 'at') at = word.what;
    else if (word.kind === 'finding') findings.push(`${word.what}: ${word.error}`);
    else if (word.kind === 'tally') tallies.push(word.tally);
    else {
      ended = true;
      if (word.polluted) findings.push('something was added to the prototype of all objects');
    }
  });
  worker.on('error', (error) => findings.push(`${at}: ended the worker: ${error.message}`));
  worker.on('exit', () => {
    clearTimeout(lost);
    resolve();
  });
});

const inputs = tallies.reduce((sum, tally) => sum + tally.inputs, 0);
const hangs = tallies.filter(({ slowestMs }) => slowestMs > HANG_MS).map(({ parser }) => parser);
const peakMebi = Math.round(process.resourceUsage().maxRSS / 1024);
const asked = Math.round(INPUTS * part);
for (const finding of findings.slice(0, 20)) process.stderr.write(`${finding}\n`);
keepEvidence(
  {
    campaign: 'fuzz',
    seed: SEED,
    asked: { inputs: asked, findings: 0, slowestMs: HANG_MS, peakMebi: MOST_MEBI },
    got: { inputs, findings: findings.length, hangs, peakMebi, parsers: tallies, first: findings.slice(0, 20) },
    holds: ended && inputs >= asked && findings.length === 0 && hangs.length === 0 && peakMebi <= MOST_MEBI,
    notes: [
      'An input is a good file with one to a few places spoilt, by its structure (values, fields, lists, with digests made to fit again) or by its bytes, or bytes of no kind; before them come bombs as long as a limit lets in, or longer. A finding is anything but the thing itself or a refusal of ours in one sentence.',
      'Keys, ids and times in the good files are made anew at each run, so that of two runs with one seed the places and values are the same and the bytes of keys, backups and records are not.',
      'Times are of the processor, of all threads, garbage collection counted in; peak memory is that of the process.',
    ],
  },
  `${inputs} of ${asked} inputs for ${tallies.length} parsers: ${findings.length} findings, ${hangs.length} parsers over ${HANG_MS} ms, at most ${peakMebi} MiB`,
  options,
);
