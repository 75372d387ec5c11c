import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';

/** What may stand in a data folder between two starts. Anything else is half a file that a fault left. */
const EXPECTED = [
  /^records\.db(-wal|-shm)?$/,
  /^records\.ledger-tail$/,
  /^lock\.db(-journal)?$/,
  /^owner\.json$/,
  /^before-restore-\d{8}-\d{6}(-\d+)?$/,
  // Waits to be restored; proved whole before it is looked at.
  /^next-start\.(json|kerfhand-backup)$/,
];

interface LedgerRow {
  seq: number;
  at: string;
  who: string;
  kind: string;
  subject: string;
  body: string;
  previous: string;
  digest: string;
}

/**
 * What is wrong with the records of a folder whose host has just started, by means of this file alone: SQLite's own check, every
 * digest of the ledger computed again, files that should not be there.
 */
export function problemsOf(folder: string, passing: string): string[] {
  const problems: string[] = [];
  const database = new DatabaseSync(path.join(folder, 'records.db'), { readOnly: true, timeout: 5000 });
  try {
    const check = database
      .prepare('PRAGMA integrity_check')
      .all()
      .map((row) => String(Object.values(row)[0]));
    if (check.join() !== 'ok') problems.push(`integrity: ${check.join('; ')}`);
    const foreign = database.prepare('PRAGMA foreign_key_check').all();
    if (foreign.length > 0) problems.push(`${foreign.length} rows refer to nothing`);
    const open = database.prepare("select count(*) as n from runs where state = 'open'").get() as { n: number };
    if (open.n > 0) problems.push(`${open.n} runs that nobody cuts are still open`);
    problems.push(...ledgerProblems(database, path.join(folder, 'records.ledger-tail')));
  } finally {
    database.close();
  }
  for (const name of readdirSync(folder)) if (!EXPECTED.some((known) => known.test(name))) problems.push(`left over: ${name}`);
  for (const name of readdirSync(passing)) problems.push(`left over in the place for temporary files: ${name}`);
  return problems;
}

function ledgerProblems(database: DatabaseSync, tailFile: string): string[] {
  const rows = database.prepare('select * from ledger order by seq').all() as unknown as LedgerRow[];
  let before = '0'.repeat(64);
  for (const [index, { seq, at, who, kind, subject, body, previous, digest }] of rows.entries()) {
    const again = createHash('sha256')
      .update(JSON.stringify([seq, at, who, kind, subject, body, previous]))
      .digest('hex');
    if (seq !== index + 1 || previous !== before || again !== digest) return [`the ledger breaks at entry ${index + 1}`];
    before = digest;
  }
  if (!existsSync(tailFile)) return ['the tail of the ledger is missing'];
  const tail = JSON.parse(readFileSync(tailFile, 'utf8')) as { seq: number; digest: string };
  // A start brings the tail up to the last entry; without any it says that none has come yet.
  if (tail.seq !== rows.length) return [`the tail tells of entry ${tail.seq}, and there are ${rows.length}`];
  return rows.length === 0 || tail.digest === before ? [] : [`the tail tells of entry ${tail.seq} and that is another`];
}
