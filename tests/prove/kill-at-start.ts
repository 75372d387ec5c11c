import { cpSync, existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { type FaultHost, spawnHost, whenReady } from './fault-host.ts';
import { type Ground, type KillCounts, killIn, killStarting, nextStart, rowsIn } from './kill-ground.ts';
import { PASSPHRASE, signIn } from './kill-yard.ts';

const OLD_FILES = new URL('../host/old-files/', import.meta.url);
const OLD_VERSIONS = [1, 2, 5, 8, 9];
/** A backup to restore goes in in four pieces; then it is proved, and waits. */
const PIECES = 5;

/** Brings an old file of records to today's version, and kills the host while it does. */
export async function killMigrating(ground: Ground, kill: number, count: KillCounts): Promise<void> {
  const version = OLD_VERSIONS[kill % OLD_VERSIONS.length];
  const folder = mkdtempSync(path.join(ground.folder, 'old-'));
  const records = path.join(folder, 'records.db');
  cpSync(new URL(`records-version-${version}.db`, OLD_FILES), records);
  const tail = new URL(`records-version-${version}.ledger-tail`, OLD_FILES);
  if (existsSync(tail)) cpSync(tail, path.join(folder, 'records.ledger-tail'));
  const before = rowsIn(records);
  count.acknowledged += before.length;
  await killStarting(folder, ground, /^records\.db-wal$/, count);
  const next = await nextStart(folder, ground, count);
  if (!next) return;
  const after = new Set(rowsIn(records));
  for (const row of before) if (!after.has(row)) count.lost.push(`version ${version}: ${row}`);
  await next.kill();
  rmSync(folder, { recursive: true });
}

/** Kills a host while a backup is brought to it to be restored, or (`isWaiting`) while it restores one at its start. */
export async function killRestoring(ground: Ground, kill: number, isWaiting: boolean, count: KillCounts): Promise<void> {
  const folder = path.join(ground.folder, `restore-${kill}`);
  cpSync(isWaiting ? ground.waiting : ground.later, folder, { recursive: true });
  const [laterRows, earlierRows] = [rowsIn(path.join(ground.later, 'records.db')), rowsOfBackup(ground)];
  count.acknowledged += earlierRows.length;
  let asked = isWaiting;
  if (asked) await killStarting(folder, ground, /^restore-|^before-restore-/, count);
  else {
    const host = await whenReady(spawnHost(folder, ground.passing));
    await signIn(host);
    let pieces = 0;
    const asking = askToRestore(host, ground.backup, () => {
      pieces += 1;
    }).then(() => {
      asked = true;
    });
    await killIn(host, ground, PIECES, () => pieces, asking, count);
  }

  const next = await nextStart(folder, ground, count);
  if (!next) return;
  const found = new Set(rowsIn(path.join(folder, 'records.db')));
  const { notices } = await next.ask('getSession', {});
  const aside = readdirSync(folder).filter((name) => name.startsWith('before-restore-'));
  const restored = aside.length > 0;
  if (asked && !restored) count.lost.push('a restore that was acknowledged and never came');
  if (notices.some(({ code }) => code === 'not-restored')) count.corrupt.push('a backup that was proved was not restored');
  for (const row of restored ? earlierRows : laterRows) if (!found.has(row)) count.lost.push(row);
  if (restored) {
    const kept = new Set(aside.flatMap((name) => rowsIn(path.join(folder, name, 'records.db'))));
    for (const row of laterRows) if (!kept.has(row)) count.lost.push(`aside: ${row}`);
    await signIn(next);
    const { total } = await next.ask('listLedger', { kinds: ['restore'] });
    if (total !== 1) count.lost.push(`the ledger tells of ${total} restores`);
  }
  await next.kill();
  rmSync(folder, { recursive: true });
}

/** Hands a backup to the host and lets it wait for the next start. */
export async function askToRestore(host: FaultHost, backup: Buffer, onPiece?: () => void): Promise<void> {
  const pieceBytes = Math.ceil(backup.length / 4);
  let uploadId: string | null = null;
  for (let offset = 0; offset < backup.length; offset += pieceBytes) {
    const piece = backup.subarray(offset, offset + pieceBytes).toString('base64');
    const added: { uploadId: string } = await host.ask('addToBackup', { uploadId, offset, piece });
    uploadId = added.uploadId;
    onPiece?.();
  }
  await host.ask('restoreAtNextStart', { uploadId: uploadId as string, passphrase: PASSPHRASE });
}

/** The records inside a backup begin behind its first line and are a plain SQLite file. */
function rowsOfBackup({ backup, folder }: Ground): string[] {
  const file = path.join(folder, 'of-the-backup.db');
  const head = backup.indexOf(0x0a);
  const { files } = JSON.parse(backup.subarray(0, head).toString('utf8')) as { files: { name: string; bytes: number }[] };
  writeFileSync(file, backup.subarray(head + 1, head + 1 + (files[0]?.bytes ?? 0)));
  return rowsIn(file);
}
