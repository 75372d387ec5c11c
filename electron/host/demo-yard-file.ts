import { open, readFile } from 'node:fs/promises';
import { promisify } from 'node:util';
import { brotliCompress, brotliDecompress, constants } from 'node:zlib';
import { z } from 'zod';
import { scanJson } from '../../sim-core/index.ts';
import { type DemoYardFacts, demoYardFactsSchema } from '../contract/demo-yard.ts';
import { HostError } from './host-error.ts';
import { fileErrorName, storageFailure } from './storage-failure.ts';

const FORMAT = 'kerfhand-demo-yard';
const FORMAT_VERSION = 1;
const HEAD_LIMIT_BYTES = 16 * 1024;
/** More than any demo yard unpacks to: a damaged file must not fill the memory. */
const UNPACKED_LIMIT_BYTES = 64 * 1024 * 1024;

const headSchema = z.strictObject({
  format: z.literal(FORMAT),
  formatVersion: z.literal(FORMAT_VERSION),
  facts: demoYardFactsSchema,
});

const compress = promisify(brotliCompress);
const decompress = promisify(brotliDecompress);

/** A demo yard as it is shipped: one line of JSON with what is in it, then a backup of its records (see `backUpYard`) in Brotli. */
export async function packDemoYard(facts: DemoYardFacts, backup: Uint8Array): Promise<Buffer> {
  const head = headSchema.parse({ format: FORMAT, formatVersion: FORMAT_VERSION, facts });
  const { BROTLI_PARAM_QUALITY, BROTLI_PARAM_LGWIN, BROTLI_PARAM_SIZE_HINT } = constants;
  const params = { [BROTLI_PARAM_QUALITY]: 11, [BROTLI_PARAM_LGWIN]: 24, [BROTLI_PARAM_SIZE_HINT]: backup.length };
  return Buffer.concat([Buffer.from(`${JSON.stringify(head)}\n`, 'utf8'), await compress(backup, { params })]);
}

/** What a demo yard file says of itself; null where there is none or it is of no use. */
export async function readDemoYardFacts(file: string): Promise<DemoYardFacts | null> {
  try {
    const handle = await open(file, 'r');
    try {
      const { buffer, bytesRead } = await handle.read(Buffer.alloc(HEAD_LIMIT_BYTES), 0, HEAD_LIMIT_BYTES, 0);
      return readHead(buffer.subarray(0, bytesRead))?.facts ?? null;
    } finally {
      await handle.close();
    }
  } catch (error) {
    if (fileErrorName(error) !== null) return null;
    throw error;
  }
}

/** The backup inside. @throws HostError 'bad-file', 'not-found', 'read-only' */
export async function unpackDemoYard(file: string): Promise<Buffer> {
  let bytes: Buffer;
  try {
    bytes = await readFile(file);
  } catch (error) {
    if (fileErrorName(error) === 'ENOENT') throw noDemoYard();
    throw storageFailure(error, file) ?? error;
  }
  const head = readHead(bytes);
  if (!head) throw damagedDemoYard();
  try {
    return await decompress(bytes.subarray(head.endsAt), { maxOutputLength: UNPACKED_LIMIT_BYTES, chunkSize: 4 * 1024 * 1024 });
  } catch (error) {
    throw damagedDemoYard(error);
  }
}

export function noDemoYard(): HostError {
  return new HostError('not-found', 'There is no demo yard in this installation of Kerfhand.');
}

export function damagedDemoYard(cause?: unknown): HostError {
  return new HostError(
    'bad-file',
    'The demo yard that comes with Kerfhand is damaged and was not unpacked; install Kerfhand again to get it back. Your own yard is untouched.',
    { cause },
  );
}

function readHead(bytes: Buffer): { facts: DemoYardFacts; endsAt: number } | null {
  const end = bytes.subarray(0, HEAD_LIMIT_BYTES).indexOf(0x0a);
  const scan = end === -1 ? null : scanJson(bytes.subarray(0, end).toString('utf8'));
  const head = scan?.ok ? headSchema.safeParse(scan.value) : null;
  return head?.success ? { facts: head.data.facts, endsAt: end + 1 } : null;
}
