import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import type { Verb } from '../../../electron/contract.ts';
import { openHost } from '../../../electron/host/host.ts';
import { RECORDS_FILE } from '../../../electron/host/open-records.ts';
import { nextInteger, type RandomState } from '../../../sim-core/math/random.ts';
import { SCENARIOS } from '../../host/sample-hand.ts';
import { withoutTriggers } from '../../host/without-triggers.ts';
import { mustBeSentence, orRefusal, type Reading } from './foreseen.ts';
import { below, pick } from './pick.ts';
import { spoilBytes } from './spoil-text.ts';

/** What somebody may put into a cell who has the file and an editor for it. */
const CELLS = [
  ...[null, 0, -1, 1.5, 1e308, -9007199254740993n, '', 'x', '{}', '[', '[[[[', '"', 'null', '{"__proto__":{}}', 'NaN', '\u0000'],
  ...['2030-13-45', '../../x', "'; drop table runs; --", 'x'.repeat(5000), new Uint8Array(0), new Uint8Array(40), '\u202e=1+1'],
];

/** What somebody may add to the tables who wants it run. */
const FOREIGN = [
  'CREATE TRIGGER spy AFTER INSERT ON migrations BEGIN DELETE FROM people; END',
  "CREATE TRIGGER hold BEFORE INSERT ON settings BEGIN SELECT RAISE(ABORT, 'held'); END",
  'CREATE VIEW everybody AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i FROM n',
  'ALTER TABLE people ADD COLUMN heavy TEXT AS (hex(zeroblob(100000000)))',
  'CREATE INDEX heavy ON people (length(hex(zeroblob(id))))',
  'DROP TABLE practice; CREATE VIEW practice AS SELECT * FROM people',
  'DROP TABLE practice_weeks',
];

interface Column {
  table: string;
  column: string;
}

/** Records with bytes spoilt, or with one to three cells written over by somebody who knows SQL. */
export function spoilRecords(records: Uint8Array, folder: string, random: RandomState): Buffer {
  if (below(random, 3) === 0) return spoilBytes(records, random);
  const file = path.join(folder, 'to-spoil.db');
  writeFileSync(file, records);
  const database = new DatabaseSync(file, { enableForeignKeyConstraints: false });
  try {
    database.exec('PRAGMA ignore_check_constraints = ON; PRAGMA journal_mode = DELETE');
    if (below(random, 5) === 0) database.exec(pick(random, FOREIGN));
    else
      withoutTriggers(database, () => {
        for (let times = 1 + below(random, 3); times > 0; times--) spoilCell(database, random);
      });
  } finally {
    database.close();
  }
  return readFileSync(file);
}

function spoilCell(database: DatabaseSync, random: RandomState): void {
  const columns = database
    .prepare(
      `SELECT m.name AS "table", c.name AS "column" FROM sqlite_master m JOIN pragma_table_info(m.name) c WHERE m.type = 'table' AND m.name NOT LIKE 'sqlite_%'`,
    )
    .all() as unknown as Column[];
  const { table, column } = pick(random, columns);
  const { rows } = database.prepare(`SELECT count(*) AS rows FROM "${table}"`).get() as { rows: number };
  if (rows === 0) return;
  try {
    database
      .prepare(`UPDATE "${table}" SET "${column}" = ? WHERE rowid = (SELECT rowid FROM "${table}" LIMIT 1 OFFSET ?)`)
      .run(pick(random, CELLS), nextInteger(random) % rows);
  } catch {
    // The table itself does not take it (NOT NULL, a key): then nobody can put it there either.
  }
}

/** What a page asks by itself as it goes through the rooms, with nobody signed in. */
const QUESTIONS: readonly [Verb, unknown][] = [
  ['getSession', {}],
  ['whoAmI', {}],
  ['listPeople', {}],
  ['listDrills', {}],
  ['listRuns', {}],
  ['listStandings', { personId: null }],
  ['getSettings', {}],
];

/** Opens records as the program does and asks what the page asks first. @throws where an answer is not one of ours */
export async function readRecords(bytes: Uint8Array, folder: string): Promise<Reading> {
  const own = mkdtempSync(path.join(folder, 'records-'));
  writeFileSync(path.join(own, RECORDS_FILE), bytes);
  const faults: string[] = [];
  try {
    return await orRefusal(async () => {
      const host = await openHost({
        ...{ folder: own, scenariosFolder: SCENARIOS, shell: 'loopback', appVersion: '0.1.0' },
        log: (line) => faults.push(line),
      });
      try {
        for (const [verb, request] of QUESTIONS) {
          const answer = await host.call(verb, request);
          if (answer.ok) continue;
          mustBeSentence(answer.error.message);
          if (answer.error.code === 'internal') throw new Error(`a fault of the host: ${faults.at(-1)}`);
        }
      } finally {
        await host.close();
      }
    });
  } finally {
    rmSync(own, { recursive: true });
  }
}
