import type { Diagnosis } from '../drill/diagnosis.ts';
import { drillFormat } from '../drill/drill-format.ts';
import type { HandScale } from '../drill/hand-scale.ts';
import type { ParseProblem } from '../drill/parse-problem.ts';
import { readVersionedValue } from '../drill/parse-versioned-file.ts';
import type { RigChoices } from '../drill/rig-choices.ts';
import {
  type HandKind,
  type KeptScore,
  RUN_FORMAT,
  RUN_FORMAT_VERSION,
  RUN_FORMAT_VERSION_UNMEASURED,
  runFormat,
} from '../drill/run-file-schema.ts';
import { scanJson } from '../drill/scan-json.ts';
import type { Drill } from '../drill/schema.ts';
import { fromBase64, toBase64 } from '../math/base-64.ts';
import { sha256Hex } from '../math/sha-256.ts';
import { utf8Bytes } from '../math/utf-8.ts';
import type { Score } from '../scoring/score.ts';
import { decodeHandLog, type HandLog } from './hand-input.ts';
import { impossibleMotion, impossibleMotionSentence } from './impossible-motion.ts';
import type { StoredTrace } from './run-file-trace.ts';

/** Longest run file that is read at all, in UTF-16 units: an hour of hand work is well below it. */
export const RUN_TEXT_LIMIT = 32 * 1024 * 1024;

/** A run as it is kept and handed on. */
export interface RunFile {
  coreVersion: string;
  /** The drill file's text, any layout; its content is kept whole, in the version it was written in. */
  drillText: string;
  seed: number;
  hand: { kind: HandKind; name: string };
  /** What was chosen in the rig check; null where the rig stood ready. */
  choices: RigChoices | null;
  /** How the hand was measured; null or absent where it was not. */
  handScale?: HandScale | null;
  /** What was said to be wrong with the rig; null where nothing was. */
  diagnosis: Diagnosis | null;
  finished: boolean;
  tickCount: number;
  /** `encodeHandLog` of every tick. */
  inputs: Uint8Array;
  /** Digest at every full second; empty for a run that broke off. */
  digests: string[];
  finalDigest: string | null;
  trace: StoredTrace | null;
  score: KeptScore | Score | null;
}

/** A run file that was read: as above, with drill and inputs taken apart. */
export interface ReadRunFile extends RunFile {
  drill: Drill;
  log: HandLog;
}

export type RunFileResult =
  | { ok: true; run: ReadRunFile }
  /** damaged: not byte for byte what was written. newer: whole, but of a later format. unreadable: no run file, or one that was made wrong. */
  | { ok: false; why: 'damaged' | 'newer' | 'unreadable'; problems: ParseProblem[] };

/** The text of a run file: one line of JSON, one line with the SHA-256 of the first line's UTF-8 bytes. What `run` has besides is left out. */
export function encodeRunFile(run: RunFile): string {
  const head = JSON.stringify({
    format: RUN_FORMAT,
    formatVersion: run.handScale ? RUN_FORMAT_VERSION : RUN_FORMAT_VERSION_UNMEASURED,
    coreVersion: run.coreVersion,
    drill: JSON.parse(run.drillText) as unknown,
    seed: run.seed,
    hand: run.hand,
    choices: run.choices,
    ...(run.handScale ? { handScale: run.handScale } : {}),
    diagnosis: run.diagnosis,
    finished: run.finished,
    tickCount: run.tickCount,
    inputs: toBase64(run.inputs),
    digests: run.digests,
    finalDigest: run.finalDigest,
    trace: run.trace,
    score: run.score,
  });
  return `${head}\n${sealOf(head)}\n`;
}

function sealOf(head: string): string {
  return `{"sha256":"${sha256Hex(utf8Bytes(head))}"}`;
}

/** Reads a run file. Never throws: whatever the text is, the answer says what it came to. */
export function decodeRunFile(text: string): RunFileResult {
  const no = (why: 'damaged' | 'newer' | 'unreadable', path: string, sentence: string): RunFileResult => {
    return { ok: false, why, problems: [{ path, sentence }] };
  };
  if (text.length > RUN_TEXT_LIMIT) return no('unreadable', '$', `A run file has at most ${RUN_TEXT_LIMIT} characters.`);
  const end = text.indexOf('\n');
  const head = end === -1 ? text : text.slice(0, end);
  if (end === -1 || text.slice(end + 1) !== `${sealOf(head)}\n`) {
    return no(
      'damaged',
      '$',
      'The file is not as it was written: its seal, the digest in its second line, does not fit its first line.',
    );
  }
  const scan = scanJson(head);
  if (!scan.ok) return { ok: false, why: 'unreadable', problems: [scan.problem] };
  const read = readVersionedValue(scan.value, runFormat);
  if (!read.ok) return { ok: false, why: isNewer(scan.value) ? 'newer' : 'unreadable', problems: read.problems };
  const { format: _format, formatVersion: _version, drill: drillFile, inputs: inputText, ...rest } = read.value;
  const drill = readVersionedValue(drillFile, drillFormat);
  if (!drill.ok) {
    const problems = drill.problems.map(({ path, sentence }) => ({ path: path.replace('$', '$.drill'), sentence }));
    return { ok: false, why: 'unreadable', problems };
  }
  try {
    const inputs = fromBase64(inputText);
    const log = decodeHandLog(inputs);
    if (log.length !== rest.tickCount) {
      return no('unreadable', '$.tickCount', `The file says ${rest.tickCount} ticks and holds ${log.length}.`);
    }
    const impossible = impossibleMotion(log);
    if (impossible) return no('unreadable', '$.inputs', impossibleMotionSentence(impossible));
    // The score as it stands in the file: the schema that has checked it hands it back with its fields in another order, and the
    // run written again would be another file, which no signature fits. No step of migration changes a score.
    const { score } = scan.value as { score: KeptScore | null };
    return { ok: true, run: { ...rest, score, drillText: JSON.stringify(drillFile), drill: drill.value, inputs, log } };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return no('unreadable', '$.inputs', error.message);
  }
}

function isNewer(value: unknown): boolean {
  if (typeof value !== 'object' || value === null || !('format' in value) || !('formatVersion' in value)) return false;
  return value.format === RUN_FORMAT && typeof value.formatVersion === 'number' && value.formatVersion > RUN_FORMAT_VERSION;
}
