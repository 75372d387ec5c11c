import { existsSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { constants, zstdCompressSync, zstdDecompressSync } from 'node:zlib';
import {
  type CompletedRun,
  createSamples,
  createSimulation,
  type Drill,
  type HandScript,
  PHYSICS_VERSION,
  type RigAnswers,
  rightAnswers,
  runAnyHand,
  runHand,
  SAMPLE_FIELDS,
  type Samples,
  type Score,
  scoreContextOf,
  scoreRun,
  setupFromDrill,
  windowOfDrill,
} from '../../../sim-core/index.ts';
import { digestOf } from '../digest-of.ts';
import { writeWhole } from '../write-whole.ts';
import { persistentHand } from './persistent-hand.ts';

const FOLDER = path.join(tmpdir(), 'kerfhand-prove-runs');
const FAST = { params: { [constants.ZSTD_c_compressionLevel]: 1 } };

/** One in so many kept runs is cut anew, to see that what is kept is still what this core cuts. */
const CUT_ANEW = 50;

/** How a hand that persists does it: a change of tests/prove/skill/persistent-hand.ts asks for another word. */
const PERSISTS = 'strikes again up to twelve times, farther on where it was in vain';

let used = 0;

export interface ToCut extends Partial<RigAnswers> {
  drill: Drill;
  script: HandScript;
  seed: number;
  /** Strikes again where the arc goes out; the script's moves are then all along the line. */
  persists: boolean;
}

/**
 * Score of a run. What was cut before is not cut again but marked from what was kept, in the machine's temporary folder: its samples
 * and the metal, so that another rubric or another measure needs no new simulation.
 * @throws Error where a kept run is no longer what this core cuts
 */
export function keptScore({ drill, script, seed, persists, ...changed }: ToCut): Score {
  const answers = { ...rightAnswers(drill), ...changed };
  const cut = (): CompletedRun =>
    persists ? runAnyHand(drill, persistentHand(drill, script, seed), seed, answers) : runHand(drill, script, seed, answers);
  const file = path.join(FOLDER, keyOf(drill, script, seed, persists, answers));
  if (!existsSync(file)) {
    const run = cut();
    writeWhole(file, zstdCompressSync(pack(run.finalDigest, run.samples, run.simulation.save()), FAST));
    return run.score;
  }
  const { finalDigest, samples, saved } = unpack(zstdDecompressSync(readFileSync(file)));
  used += 1;
  if (used % CUT_ANEW === 1 && cut().finalDigest !== finalDigest) {
    throw new Error(`Kept runs are of another core: remove ${FOLDER}.`);
  }
  const simulation = createSimulation(setupFromDrill(drill, seed, answers.choices));
  simulation.restore(saved);
  return scoreRun(drill, samples, scoreContextOf(simulation, windowOfDrill(drill), answers));
}

/** All that a run comes of, and none of what it is marked by. */
function keyOf(drill: Drill, script: HandScript, seed: number, persists: boolean, { choices }: RigAnswers): string {
  const cause: unknown[] = [
    PHYSICS_VERSION,
    setupFromDrill(drill, seed, choices),
    drill.path,
    drill.guide,
    drill.start,
    script,
    choices,
  ];
  cause.push(persists ? PERSISTS : 'as scripted');
  return digestOf(cause);
}

function pack(finalDigest: string, samples: Samples, saved: Uint8Array): Buffer {
  const head = Buffer.from(JSON.stringify({ finalDigest, ticks: samples.length }));
  const columns = SAMPLE_FIELDS.map((field) => {
    const column = samples.columns[field].subarray(0, samples.length);
    return Buffer.from(column.buffer, column.byteOffset, column.byteLength);
  });
  const length = Buffer.alloc(4);
  length.writeUInt32LE(head.length);
  return Buffer.concat([length, head, ...columns, saved]);
}

function unpack(bytes: Buffer): { finalDigest: string; samples: Samples; saved: Uint8Array } {
  const headLength = bytes.readUInt32LE();
  const { finalDigest, ticks } = JSON.parse(bytes.toString('utf8', 4, 4 + headLength)) as { finalDigest: string; ticks: number };
  const samples = createSamples(ticks);
  samples.length = ticks;
  let at = 4 + headLength;
  for (const field of SAMPLE_FIELDS) {
    const column = samples.columns[field];
    new Uint8Array(column.buffer).set(bytes.subarray(at, at + column.byteLength));
    at += column.byteLength;
  }
  return { finalDigest, samples, saved: new Uint8Array(bytes.subarray(at)) };
}
