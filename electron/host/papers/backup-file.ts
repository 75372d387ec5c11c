import { createHash } from 'node:crypto';
import { type FileHandle, open, stat } from 'node:fs/promises';
import { z } from 'zod';
import { scanJson } from '../../../sim-core/index.ts';
import { HostError } from '../host-error.ts';
import { LEDGER_TAIL_FILE, RECORDS_FILE } from '../open-records.ts';
import { storageFailure } from '../storage-failure.ts';
import { canonicalJson } from './canonical-json.ts';
import { copyBytes, type JobWatch } from './copy-bytes.ts';

export const BACKUP_FORMAT = 'kerfhand-backup';
export const BACKUP_FORMAT_VERSION = 1;
/** Longest first line, in bytes; a real one is below a thousand. */
const HEAD_LIMIT_BYTES = 16 * 1024;

const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'must be 64 small hex digits');
const count = z.int().min(0);

/**
 * The first line of a backup, JSON in UTF-8. After its line end follow the bytes of `files`, one behind the other, and nothing else.
 * `sha256` is that of the canonical JSON (RFC 8785) of the line without that field, so that every byte of the file is covered.
 */
export const backupHeadSchema = z.strictObject({
  format: z.literal(BACKUP_FORMAT),
  formatVersion: z.literal(BACKUP_FORMAT_VERSION),
  madeAt: z.iso.datetime(),
  appVersion: z.string().min(1).max(200),
  /** Steps of migration that the records have been through. */
  recordsVersion: count,
  people: count,
  runs: count,
  files: z
    .array(z.strictObject({ name: z.enum([RECORDS_FILE, LEDGER_TAIL_FILE]), bytes: count, sha256 }))
    .min(1)
    .refine((files) => new Set(files.map(({ name }) => name)).size === files.length, 'a file stands twice')
    .refine((files) => files[0].name === RECORDS_FILE, 'the records must come first'),
  sha256,
});
export type BackupHead = z.infer<typeof backupHeadSchema>;

/** The first line for what is to be backed up. */
export function backupHead(head: Omit<BackupHead, 'format' | 'formatVersion' | 'sha256'>): BackupHead {
  const body = { format: BACKUP_FORMAT, formatVersion: BACKUP_FORMAT_VERSION, ...head };
  return backupHeadSchema.parse({ ...body, sha256: digestOf(body) });
}

/**
 * Reads a backup from end to end and hands every file in it on, digested and checked.
 * @param targetOf where the bytes of a file go; null = they are only checked
 * @throws HostError 'not-found', 'bad-file', 'newer-version', 'conflict' (stopped)
 */
export async function readBackup(
  file: string,
  watch: JobWatch,
  targetOf: (name: string) => Promise<FileHandle | null>,
): Promise<BackupHead> {
  const source = await openBackup(file);
  try {
    const { head, bodyAt } = await readHead(source, file);
    const total = head.files.reduce((sum, { bytes }) => sum + bytes, 0);
    const { size } = await source.stat();
    if (size !== bodyAt + total) throw damagedBackup(file, `it is ${size} bytes long and should be ${bodyAt + total}`);
    // Reads of the body go on from where the last one ended; reading the first line did not move that.
    await copyBytes(source, null, bodyAt, watch, () => undefined);
    let done = 0;
    for (const { name, bytes, sha256: stated } of head.files) {
      const target = await targetOf(name);
      try {
        const copied = await copyBytes(source, target, bytes, watch, (step) => {
          done += step;
          watch.onProgress?.(done, total);
        });
        if (copied.sha256 !== stated) throw damagedBackup(file, `the digest of ${name} does not fit`);
        await target?.sync();
      } finally {
        await target?.close();
      }
    }
    return head;
  } catch (error) {
    throw storageFailure(error, file) ?? error;
  } finally {
    await source.close();
  }
}

async function openBackup(file: string): Promise<FileHandle> {
  try {
    if ((await stat(file)).isDirectory()) throw new HostError('bad-file', `${file} is a folder, not a backup.`);
    return await open(file, 'r');
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') {
      throw new HostError('not-found', `There is no file ${file}.`);
    }
    throw storageFailure(error, file) ?? error;
  }
}

async function readHead(source: FileHandle, file: string): Promise<{ head: BackupHead; bodyAt: number }> {
  const { buffer, bytesRead } = await source.read(Buffer.alloc(HEAD_LIMIT_BYTES), 0, HEAD_LIMIT_BYTES, 0);
  const end = buffer.subarray(0, bytesRead).indexOf(0x0a);
  const scan = end === -1 ? null : scanJson(buffer.subarray(0, end).toString('utf8'));
  if (!scan?.ok || typeof scan.value !== 'object' || scan.value === null || !('format' in scan.value)) throw notBackup(file);
  const value = scan.value as Record<string, unknown>;
  if (value.format !== BACKUP_FORMAT) throw notBackup(file);
  if (typeof value.formatVersion === 'number' && value.formatVersion > BACKUP_FORMAT_VERSION) {
    throw new HostError(
      'newer-version',
      `${file} is a backup of formatVersion ${value.formatVersion}, this program reads up to ${BACKUP_FORMAT_VERSION}; use the newer program.`,
    );
  }
  const parsed = backupHeadSchema.safeParse(value);
  if (!parsed.success) throw damagedBackup(file, `its first line is not as it must be (${parsed.error.issues[0].message})`);
  const { sha256: stated, ...body } = value;
  if (digestOf(body) !== stated) throw damagedBackup(file, 'the digest of its first line does not fit');
  return { head: parsed.data, bodyAt: end + 1 };
}

function digestOf(body: object): string {
  return createHash('sha256').update(canonicalJson(body), 'utf8').digest('hex');
}

function notBackup(file: string): HostError {
  return new HostError('bad-file', `${file} is not a backup of Kerfhand, or its beginning is damaged.`);
}

function damagedBackup(file: string, why: string): HostError {
  return new HostError('bad-file', `The backup ${file} is damaged: ${why}. Nothing was changed.`);
}
