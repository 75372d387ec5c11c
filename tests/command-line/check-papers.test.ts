// `check` on the files that are handed about: drill packs and rosters.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { encodePack } from '../../electron/host/papers/drill-pack.ts';
import { rosterCsv } from '../../electron/host/papers/roster.ts';
import { drillText } from '../scenarios/drill-files.ts';
import { kerfhand } from './run-kerfhand.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'kerfhand-check-papers-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function check(name: string, text: string) {
  writeFileSync(path.join(folder, name), text);
  const { code, stdout } = await kerfhand(['check', path.join(folder, name), '--json']);
  return { code, ...(JSON.parse(stdout) as { ok: boolean; problems?: { path: string; sentence: string }[] }) };
}

test('a good pack and a good roster: nothing to say', async () => {
  const text = drillText('hanger-tab-straight-6.json');
  const pack = encodePack({ title: 'One', about: '', madeAt: '2030-02-01T10:15:00.000Z' }, [
    { text, earlier: [], demonstration: null },
  ]);
  expect(await check('one.kerfhand-pack', pack)).toEqual({ code: 0, ok: true });
  const spoilt = await check('spoilt.kerfhand-pack', pack.replace('"title": "One"', '"title": "Two"'));
  expect(spoilt).toMatchObject({ code: 1, ok: false, problems: [{ path: '$', sentence: expect.stringContaining('digest') }] });
  const people = [1, 2].map((number) => ({ role: 'instructor' as const, number, groups: ['Monday'] }));
  expect(await check('roster.csv', rosterCsv(people))).toEqual({ code: 0, ok: true });
});

test('a pack with a drill that cannot be cut names drill and place', async () => {
  const drill = JSON.parse(drillText('hanger-tab-straight-6.json')) as { plate: { thicknessMm: number } };
  drill.plate.thicknessMm = 38;
  const text = JSON.stringify(drill);
  const pack = encodePack({ title: 'One', about: '', madeAt: '2030-02-01T10:15:00.000Z' }, [
    { text, earlier: [], demonstration: null },
  ]);
  const { code, problems } = await check('thick.kerfhand-pack', pack);
  expect(code).toBe(1);
  expect(problems?.[0].path).toMatch(/^\$\.drills\[0\]\.drill\./);
});

test('a roster with mistakes names their lines', async () => {
  expect(await check('bad.CSV', 'role,number\napprentice,1\nforeman,2\napprentice,1\n')).toEqual({
    code: 1,
    ok: false,
    problems: [
      { path: 'line 3', sentence: 'The role is "foreman" and must be apprentice, instructor or assessor.' },
      { path: 'line 4', sentence: 'Apprentice 01 stands in line 2 already.' },
    ],
  });
  expect(await check('no.csv', 'name\nx\n')).toMatchObject({ code: 1, problems: [{ path: '$' }] });
});
