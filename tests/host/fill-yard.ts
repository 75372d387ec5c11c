import { randomUUID } from 'node:crypto';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { MEASURE_IDS } from '../../sim-core/index.ts';

const DAY_MS = 24 * 60 * 60 * 1000;

/** A generator that gives the same figures every time, 0 to 1. */
function figures(): () => number {
  let state = 20_260_101;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

/**
 * Fills a closed yard with finished runs as they stand in the records, contents of some 60 KB each in a tenth of them, and lets
 * the totals be made anew at the next opening. A tenth of the runs is handed in, half of those decided.
 */
export function fillYard(folder: string, { people, runs }: { people: number; runs: number }): void {
  const records = new DatabaseSync(path.join(folder, 'records.db'));
  const next = figures();
  const insert = (table: string, row: Record<string, string | number | Uint8Array | null>) => {
    const names = Object.keys(row);
    records.prepare(`insert into ${table} (${names}) values (${names.map(() => '?')})`).run(...Object.values(row));
  };
  records.exec('begin');
  const drills = records
    .prepare('select hash from drill_versions order by hash')
    .all()
    .map((row) => String(row.hash));
  const ids = Array.from({ length: people }, () => randomUUID());
  for (const [index, id] of ids.entries()) {
    insert('people', { id, role: 'apprentice', number: 100 + index, created_at: '2030-01-01T00:00:00.000Z' });
  }
  for (let group = 0; group < 10; group++) {
    const id = randomUUID();
    insert('groups', { id, name: `Group ${String(group + 1).padStart(2, '0')}`, created_at: '2030-01-01T00:00:00.000Z' });
    for (const person_id of ids.slice((group * people) / 10, ((group + 1) * people) / 10))
      insert('group_members', { group_id: id, person_id });
  }
  const bulk = new Uint8Array(60_000).fill(7);
  for (let run = 0; run < runs; run++) {
    const id = randomUUID();
    const at = new Date(Date.UTC(2030, 0, 7) + (run / runs) * 56 * DAY_MS).toISOString();
    const measures = MEASURE_IDS.slice(0, 8).map((measure) => ({ id: measure, mark: Math.round(next() * 100), weight: 1 }));
    const score = measures.reduce((sum, measure) => sum + measure.mark / measures.length, 0);
    const submitted = run % 10 === 0;
    const decided = run % 20 === 0;
    insert('runs', {
      id,
      state: 'finished',
      source: 'here',
      person_id: ids[Math.floor(next() * people)] ?? null,
      drill_hash: drills[Math.floor(next() * drills.length)] ?? null,
      seed: run,
      hand_kind: 'mouse',
      hand_name: 'mouse',
      core_version: '2.0.0',
      began_at: at,
      ended_at: at,
      tick_count: 7200,
      final_digest: '00ff00ff00ff00ff',
      score,
      passed: score >= 55 ? 1 : 0,
      trace_hz: 30,
      submitted_at: submitted ? at : null,
      decision: decided ? 'competent' : null,
      decided_at: decided ? at : null,
      used: JSON.stringify({ electrode: 0.001, nozzle: 0.002, shield: 0.0005, plateKg: 0.4, gasM3: 0.02, minutes: 1 }),
    });
    insert('run_contents', {
      run_id: id,
      inputs: run % 10 === 0 ? bulk : new Uint8Array(100),
      digests: '[]',
      score_record: JSON.stringify({ score, passed: score >= 55, measures }),
      trace_fields: '["xMm"]',
      trace_columns: new Uint8Array(400),
    });
  }
  records.exec("delete from settings where name = 'practice-totals'");
  records.exec('commit');
  records.close();
}
