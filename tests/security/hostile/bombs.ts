import { createHash } from 'node:crypto';
import { brotliCompressSync, constants } from 'node:zlib';
import { RUN_TEXT_LIMIT } from '../../../sim-core/index.ts';
import type { GoodFiles } from './good-files.ts';

/** An input that is small in wits and large in what it asks for, for the parser of that name. */
export interface Bomb {
  parser: string;
  what: string;
  make(): unknown;
}

const MEBI = 1024 * 1024;
const list = (entry: string, length: number) => `[${`${entry},`.repeat(length - 1)}${entry}]`;
const fields = (length: number) => Array.from({ length }, (_, index) => `"k${index}":0`).join(',');

function sealedRun(head: string): string {
  return `${head}\n{"sha256":"${createHash('sha256').update(head, 'utf8').digest('hex')}"}\n`;
}

/** A run file with one field's JSON put in another's stead. */
function runWith(run: string, field: string, json: string): string {
  const head = JSON.parse(run.slice(0, run.indexOf('\n'))) as Record<string, unknown>;
  return sealedRun(JSON.stringify({ ...head, [field]: '@' }).replace('"@"', () => json));
}

/** Bombs for every parser that reads more than a page: as long as its limit lets in, or longer. */
export function bombs(good: GoodFiles): Bomb[] {
  const [run] = good.runs as [string];
  const pack = JSON.parse(good.pack) as { drills: object[] };
  const demoHead = good.demoYard.subarray(0, good.demoYard.indexOf(0x0a) + 1);
  const backupHead = JSON.parse(good.backup.subarray(0, good.backup.indexOf(0x0a)).toString('utf8')) as object;
  const drill = (json: string) => `{"format":"kerfhand-drill","formatVersion":2,${json}}`;
  const hand = (json: string) => `{"format":"kerfhand-hand","formatVersion":2,"name":"x","steps":${json}}`;
  return [
    { parser: 'drill', what: 'half a million brackets', make: () => '['.repeat(MEBI / 2) },
    { parser: 'drill', what: 'longer than it may be', make: () => drill(`"title":"${'x'.repeat(40 * MEBI)}"`) },
    { parser: 'drill', what: 'fifty thousand unknown fields', make: () => drill(fields(40_000)) },
    { parser: 'drill', what: 'a number of half a million digits', make: () => drill(`"leadInMm":${'9'.repeat(MEBI / 2 - 100)}`) },
    { parser: 'drill', what: 'a list of nothings for a path', make: () => drill(`"path":{"segments":${list('{}', 120_000)}}`) },
    { parser: 'hand script', what: 'steps without end', make: () => hand(list('0', 250_000)) },
    {
      parser: 'hand script',
      what: 'a thousand steps of no kind',
      make: () => hand(list('{"do":"move","to":{},"speed":{}}', 1000)),
    },
    { parser: 'run file', what: 'longer than it may be', make: () => sealedRun('x'.repeat(RUN_TEXT_LIMIT)) },
    { parser: 'run file', what: 'as long as it may be, without a seal', make: () => `${'x'.repeat(RUN_TEXT_LIMIT - 1)}\n` },
    { parser: 'run file', what: 'millions of digests', make: () => runWith(run, 'digests', list('0', 4_000_000)) },
    { parser: 'run file', what: 'a score of a million fields', make: () => runWith(run, 'score', `{${fields(1_000_000)}}`) },
    {
      parser: 'run file',
      what: 'inputs of 20 MB that are none',
      make: () => runWith(run, 'inputs', `"${'/'.repeat(20 * MEBI)}"`),
    },
    { parser: 'run file', what: 'inputs that claim 2^41 ticks', make: () => runWith(run, 'inputs', '"//////8/"') },
    {
      parser: 'run file',
      what: 'a trace of 20 MB',
      make: () => runWith(run, 'trace', `{"hz":30,"fields":["x"],"columns":"${'A'.repeat(20 * MEBI)}"}`),
    },
    { parser: 'verdict file', what: 'a million brackets', make: () => `{"payload":${'['.repeat(MEBI)}` },
    {
      parser: 'verdict file',
      what: 'marks without end',
      make: () => good.verdict.replace(/"marks": \[[^\]]*\]/, `"marks": ${list('0', 100_000)}`),
    },
    {
      parser: 'roster',
      what: 'a hundred thousand columns',
      make: () => `role,number,${Array.from({ length: 200_000 }, (_, index) => index).join(',')}\n`,
    },
    { parser: 'roster', what: 'half a million rows', make: () => `role,number\n${'a,1\n'.repeat(500_000)}` },
    { parser: 'roster', what: 'two million empty lines', make: () => `role,number\n${'\n'.repeat(2_000_000)}` },
    { parser: 'roster', what: 'quotation marks only', make: () => `role,number\n${'"a"b'.repeat(500_000)}` },
    {
      parser: 'roster',
      what: 'one cell with a million groups',
      make: () => `role,number,groups\napprentice,1,${'a|'.repeat(1_000_000)}`,
    },
    {
      parser: 'drill pack',
      what: 'the same drill two hundred times',
      make: () => JSON.stringify({ ...pack, drills: new Array(200).fill(pack.drills[0]) }),
    },
    {
      parser: 'drill pack',
      what: 'longer than it may be',
      make: () => `{"format":"kerfhand-pack","title":"${'x'.repeat(25 * MEBI)}"}`,
    },
    {
      parser: 'drill pack',
      what: 'a demonstration of 20 MB',
      make: () => JSON.stringify({ ...pack, drills: [{ ...pack.drills[0], demonstration: 'x'.repeat(20 * MEBI) }] }),
    },
    { parser: 'backup', what: 'a first line without an end', make: () => Buffer.alloc(8 * MEBI, 0x20) },
    {
      parser: 'backup',
      what: 'files of 2^53 bytes',
      make: () =>
        Buffer.from(
          `${JSON.stringify({ ...backupHead, files: [{ name: 'records.db', bytes: 2 ** 53 - 1, sha256: '0'.repeat(64) }] })}\n`,
        ),
    },
    {
      parser: 'demo yard',
      what: 'a hundred megabytes of zeros in some kilobytes',
      make: () => Buffer.concat([demoHead, zerosInBrotli(100)]),
    },
    { parser: 'demo yard', what: 'a first line without an end', make: () => Buffer.alloc(8 * MEBI, 0x20) },
    {
      parser: 'public key',
      what: 'a megabyte of base64',
      make: () => `-----BEGIN PUBLIC KEY-----\n${'A'.repeat(MEBI)}\n-----END PUBLIC KEY-----\n`,
    },
    { parser: 'xAPI settings', what: 'a megabyte of slashes', make: () => `https://store.example/${'/'.repeat(MEBI)}x` },
    {
      parser: 'contract payload',
      what: 'nested ten thousand deep',
      make: () => ({ verb: 'finishRun', payload: JSON.parse(`${'['.repeat(10_000)}${']'.repeat(10_000)}`) as unknown }),
    },
    {
      parser: 'contract payload',
      what: 'ten million entries',
      make: () => ({ verb: 'checkHandIn', payload: { runIds: new Array(10_000_000).fill(0) } }),
    },
    {
      parser: 'contract payload',
      what: 'a list of four thousand million holes',
      make: () => ({ verb: 'checkHandIn', payload: { runIds: new Array(2 ** 32 - 1) } }),
    },
    {
      parser: 'contract payload',
      what: 'lists that hold one list twice, forty deep',
      make: () => ({ verb: 'setSettings', payload: { prices: doubled(40) } }),
    },
    {
      parser: 'contract payload',
      what: '31 MB of base64',
      make: () => ({ verb: 'addToBackup', payload: { uploadId: null, offset: 0, piece: 'A'.repeat(31 * MEBI) } }),
    },
  ];
}

/** So many mebibytes of zeros, compressed. */
function zerosInBrotli(mebibytes: number): Buffer {
  const params = { [constants.BROTLI_PARAM_QUALITY]: 2, [constants.BROTLI_PARAM_LGWIN]: 24 };
  return brotliCompressSync(Buffer.alloc(mebibytes * MEBI), { params });
}

function doubled(depth: number): unknown {
  let value: unknown = 0;
  for (let level = 0; level < depth; level++) value = [value, value];
  return value;
}
