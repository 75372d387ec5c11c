import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { backupHead } from '../../electron/host/papers/backup-file.ts';
import { encodePack } from '../../electron/host/papers/drill-pack.ts';
import { rosterCsv } from '../../electron/host/papers/roster.ts';
import { fileKindOf } from '../../renderer/desk/file-kind.ts';
import { encodeRunFile } from '../../sim-core/index.ts';
import { runOfHand } from '../end-to-end/imported-run.ts';

const scenarios = join(import.meta.dirname, '..', '..', 'scenarios');
const drillText = readFileSync(join(scenarios, 'guard-patch-straight-3.json'), 'utf8');
const run = encodeRunFile(runOfHand('guard-patch-straight-3', null, 1));
const pack = encodePack({ title: 'Straight lines', about: '', madeAt: '2026-03-20T10:00:00.000Z' }, [
  { text: drillText, earlier: [], demonstration: run },
]);
const backup = `${JSON.stringify(
  backupHead({
    madeAt: '2026-03-20T10:00:00.000Z',
    appVersion: '0.1.0',
    recordsVersion: 8,
    people: 3,
    runs: 2,
    files: [{ name: 'records.db', bytes: 3, sha256: '0'.repeat(64) }],
  }),
)}\nSQL`;

describe('a file is known by what is in it', () => {
  test('every drill that comes with Kerfhand is a drill', () => {
    const drills = readdirSync(scenarios).filter((name) => name.endsWith('.json') && !name.endsWith('.schema.json'));
    const others = drills.filter((name) => fileKindOf(name, readFileSync(join(scenarios, name), 'utf8')) !== 'drill');
    expect(others).toEqual([]);
  });

  test.each([
    ['run', run],
    ['pack', pack],
    ['backup', backup],
    ['roster', rosterCsv([{ role: 'apprentice', number: 1, groups: ['Morning watch'] }])],
    ['roster', '\uFEFF"Number";"Role"\r\n1;apprentice'],
    ['verdict', '{"payload":{"format":"kerfhand-verdict"},"format":"kerfhand-verdict"}'],
    ['hand', '{"formatVersion":1,"format":"kerfhand-hand"}'],
    ['public-key', '-----BEGIN PUBLIC KEY-----\nMCowBQYDK2VwAyEA\n-----END PUBLIC KEY-----\n'],
  ] as const)('%s, under any name', (kind, text) => {
    expect(fileKindOf('anything.txt', text)).toBe(kind);
    expect(fileKindOf('', text)).toBe(kind);
  });

  test('a pack is no drill and no run, though both are in it, whatever stands first', () => {
    const { drills, ...rest } = JSON.parse(pack) as { drills: unknown };
    expect(fileKindOf('x', JSON.stringify({ drills, ...rest }, null, 2))).toBe('pack');
  });

  test('one that was cut off is still sent to the reader that can say so', () => {
    expect(fileKindOf('x', run.slice(0, 5000))).toBe('run');
    expect(fileKindOf('x', pack.slice(0, pack.length / 2))).toBe('pack');
    expect(fileKindOf('x', backup.slice(0, 60))).toBe('backup');
    expect(fileKindOf('x', drillText.slice(0, 300))).toBe('drill');
  });
});

describe('what Kerfhand does not take in', () => {
  test.each([
    ['empty', 'x.kerfhand-run', ''],
    ['empty', 'x.csv', '\uFEFF \r\n'],
    ['other-table', 'runs.csv', 'run,drill,score\r\n1,2,3'],
    ['unknown', 'runs.txt', 'run,drill,score\r\n1,2,3'],
    ['other-format', 'x.json', '{"format":"somebody-elses"}'],
    ['unknown', 'x.kerfhand-run', '{"a":1}'],
    ['unknown', 'x.json', '{"format":7}'],
    ['unknown', 'x.json', 'null'],
    ['unknown', 'photo.png', '\u0089PNG\r\n'],
  ] as const)('%s: %s', (kind, name, text) => {
    expect(fileKindOf(name, text)).toBe(kind);
  });
});
