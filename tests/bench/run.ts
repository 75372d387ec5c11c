// Measures the core and prints what it finds; with --json as one JSON document. Nothing here passes or fails: a busy machine
// makes every time long, which is why what must be compared runs side by side and is reported as a ratio.
import { cpus, loadavg } from 'node:os';
import { measureAllocation } from './allocation.ts';
import { compareWithC } from './compare-with-c.ts';
import { compareWithFiniteElements, type PlateResult } from './compare-with-finite-elements.ts';
import { costByLengthCut, costByPlateSize, creationMs, digestCosts, realTimeFactor, scoringMs, seekMs } from './core-costs.ts';
import { measureFrameRate } from './frame-rate.ts';
import { measureHandLatency } from './hand-latency.ts';
import { hourOfPractice } from './hour-of-practice.ts';
import { largeYard } from './large-yard.ts';
import { pageMemory } from './page-memory.ts';
import { referenceRuns, STEEL_6, straightRun } from './recorded-runs.ts';
import { reverification } from './reverification.ts';
import { startUp } from './start-up.ts';
import type { Spread } from './statistics.ts';

const asJson = process.argv.includes('--json');
const report: Record<string, unknown> = {
  node: process.version,
  processor: cpus()[0]?.model.trim() ?? 'unknown',
  cores: cpus().length,
};

function say(line: string): void {
  if (!asJson) process.stdout.write(`${line}\n`);
}

function shown({ min, median, p99, max }: Spread, digits: number, withP99 = false): string {
  const middle = withP99 ? `, 99 in 100 under ${p99.toFixed(digits)}` : '';
  return `${median.toFixed(digits)} (${min.toFixed(digits)} to ${max.toFixed(digits)}${middle})`;
}

say(
  `Node ${process.version}, ${String(report.processor)}, ${cpus().length} cores. Medians, with least and greatest in brackets.`,
);

const runs = [straightRun(STEEL_6, 12), ...referenceRuns()];
// The engine compiles what is hot first.
for (let n = 0; n < 3; n++) realTimeFactor(straightRun(STEEL_6, 12), 1);
const factors = runs.map((run) => realTimeFactor(run, 5));
report.realTimeFactor = factors;
say('\nTimes real time on one core, recording included, by processor time | by the clock:');
for (const factor of factors) {
  say(`  ${factor.name}: ${shown(factor.processor, 0)} | ${shown(factor.wall, 0)}; ${factor.seconds.toFixed(1)} s`);
}

const kernel = compareWithC();
report.kernel = kernel;
say('\nHot kernel against C, us a tick:');
if ('skipped' in kernel) say(`  ${kernel.skipped} Skipped.`);
else {
  say(`  TypeScript ${shown(kernel.typescriptUs, 1)}, C ${shown(kernel.cUs, 1)} (${kernel.compiler})`);
  say(`  ratio ${shown(kernel.ratio, 2)}; wanted: at most 1.5`);
  say(
    kernel.sameBits
      ? `  The fields at the end are the same to the last bit (${kernel.bytes} bytes).`
      : '  THE FIELDS DIFFER: kernel.c no longer says what the core says, so the ratio compares different work.',
  );
}

const plate = compareWithFiniteElements();
report.finiteElements = plate;
say('\nA moving source on a thick plate, by the core and by finite elements (FreeFEM), against the closed form:');
if ('skipped' in plate) say(`  ${plate.skipped} Skipped.`);
else {
  const error = ({ medianError, greatestError }: PlateResult) =>
    `error ${(medianError * 100).toFixed(1)} % in the middle, ${(greatestError * 100).toFixed(1)} % at most`;
  say(`  core: ${plate.core.seconds.toFixed(2)} s; ${error(plate.core)}, of ${plate.probes} places`);
  for (const one of plate.finiteElements) {
    const times = (one.seconds / plate.core.seconds).toFixed(0);
    say(`  elements, ${one.steps} steps: ${one.seconds.toFixed(1)} s, ${times} times the core's; ${error(one)}`);
  }
  say('  wanted: 100 times, at an error no smaller');
}

const seek = seekMs(200);
report.seek = seek;
say(
  `\nSeeks in a recording of ${seek.minutes} minutes (built in ${seek.buildS.toFixed(1)} s), ms: ${shown(seek.ms, 1, true)}; wanted: under 50`,
);

const [creation, byPlate, byLength, digest] = [creationMs(), costByPlateSize(), costByLengthCut(), digestCosts()];
Object.assign(report, { creation, costByPlateSize: byPlate, costByLengthCut: byLength, digest });
say('\nMaking a simulation, ms:');
for (const { name, ms } of creation) say(`  ${name}: ${shown(ms, 1)}`);
say('A tick by the size of the plate, us:');
for (const { name, us } of byPlate) say(`  ${name}: ${shown(us, 1)}`);
say('A tick by the length already cut, us:');
for (const { name, us } of byLength) say(`  ${name}: ${shown(us, 1)}`);
say(`Digest ${shown(digest.digestMs, 2)} ms, snapshot ${shown(digest.snapshotMs, 2)} ms, whole state ${digest.savedBytes} bytes`);

const scoring = scoringMs();
report.scoringMs = scoring;
say(`Scoring a minute of hand work ${shown(scoring, 1)} ms; wanted: under 30`);

const allocation = measureAllocation();
report.allocation = allocation;
say(
  `\nHeap growth over ${allocation.ticks} ticks: ${allocation.bytesPerTick.toFixed(1)} bytes a tick; at a full second ${(allocation.bytesPerFullSecond / 1024).toFixed(0)} KB`,
);

const verified = await reverification();
report.reverification = verified;
say(`\nVerifying ${verified.runs} runs, ${verified.minutes.toFixed(1)} minutes, in the host's worker threads, by the clock:`);
say(`  the first time ${verified.coldS.toFixed(1)} s, then ${verified.warmS.toFixed(1)} s`);
say(`  that is ${verified.perThousandMinutesS.toFixed(0)} s for 1,000 minutes; wanted: under 100`);

const hour = hourOfPractice();
report.hourOfPractice = hour;
say(`\nHeld in memory over ${hour.runs} runs, ${(hour.seconds / 60).toFixed(0)} minutes of practice in one process, MB:`);
say(`  ${hour.afterMb.map((mb) => mb.toFixed(1)).join(', ')}; wanted: no growth`);

const yard = await largeYard();
report.largeYard = yard;
say(`\nLists and views of ${yard.runs} runs of ${yard.people} people, processor time of the host, ms:`);
for (const { name, ms } of yard.queries) say(`  ${name}: ${shown(ms, 0)}`);

// Last, and in a browser: where there is none, or the page is not built, the rest has been said already.
const latency = await measureHandLatency().catch((error: Error) => ({ skipped: error.message }));
report.handLatency = latency;
say('\nFrom the hand to the simulation, ms, the bench drawn meanwhile:');
if ('skipped' in latency) say(`  Skipped: ${latency.skipped.split('\n')[0]} (it needs npm run build, and a browser)`);
else {
  const load = loadavg()[0] ?? Number.NaN;
  say(`  Load of the machine ${load.toFixed(1)} on ${cpus().length} cores: whatever else runs on it counts in.`);
  for (const { name, events, toWorkerMs, toHandlerMs, onPurposeMs, beyondMs } of latency) {
    say(`  ${name}, ${events} movements: handler to worker ${shown(toWorkerMs, 1, true)}; wanted: 99 in 100 under 8`);
    say(`    device to handler ${shown(toHandlerMs, 1, true)}`);
    say(`    handler to its tick: ${shown(onPurposeMs, 1, true)} on purpose, for the rest of the movement to arrive`);
    say(`    and beyond that ${shown(beyondMs, 1, true)}; wanted: 99 in 100 under 8`);
  }
}

const frames = await measureFrameRate().catch((error: Error) => ({ skipped: error.message }));
report.frameRate = frames;
say('\nThe bench on its lightest tier, 1280 x 720; wanted: 20 frames a second, script 2 ms at the median and 5 in 95 of 100:');
if ('skipped' in frames) say(`  Skipped: ${frames.skipped.split('\n')[0]} (it needs npm run build, and a browser)`);
else {
  for (const { name, framesPerSecond, gapMs, scriptMs } of frames) {
    const told = ({ median, p95 }: { median: number; p95: number }) => `${median.toFixed(1)}, 95 in 100 under ${p95.toFixed(1)}`;
    say(`  ${name}: ${framesPerSecond.toFixed(1)} frames a second, ms between them ${told(gapMs)}; script ms ${told(scriptMs)}`);
  }
}

const starting = await startUp().catch((error: Error) => ({ skipped: error.message }));
report.startUp = starting;
say('\nStarting, ms:');
if ('skipped' in starting) say(`  Skipped: ${starting.skipped.split('\n')[0]} (it needs npm run build, and a browser)`);
else {
  say(
    `  the host on an empty folder ${shown(starting.emptyFolderMs, 0)}, on one with records ${shown(starting.keptFolderMs, 0)}`,
  );
  say(`  the page, from its address to a button that can be pressed: ${shown(starting.pageMs, 0)}`);
}

const held = await pageMemory().catch((error: Error) => ({ skipped: error.message }));
report.pageMemory = held;
say('\nHeld by the page from run to run, after collection; wanted: no growth:');
if ('skipped' in held) say(`  Skipped: ${held.skipped.split('\n')[0]} (it needs npm run build, and a browser)`);
else {
  for (const { runs: cut, heapMb, nodes, listeners, workers } of held) {
    say(`  after ${cut} runs: heap ${heapMb.toFixed(1)} MB, ${nodes} nodes, ${listeners} listeners, ${workers} workers`);
  }
}

if (asJson) process.stdout.write(`${JSON.stringify(report, null, 2)}\n`);
