// The command line from outside, in processes of its own: documents, sentences, exit codes.
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { DRILL_FILES, drillJson, SCENARIOS } from '../scenarios/drill-files.ts';
import { kerfhand, kerfhandJson } from './run-kerfhand.ts';

const DRILL = 'guard-patch-straight-3';
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'kerfhand-command-line-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function file(name: string, content: string): string {
  const full = path.join(folder, name);
  writeFileSync(full, content);
  return full;
}

/** A command that must fail: code and the sentence, with nothing on stdout. */
async function refused(args: readonly string[]): Promise<{ code: number | null; sentence: string; stderr: string }> {
  const { code, stdout, stderr } = await kerfhand(args, folder);
  expect(stdout).toBe('');
  const sentence = stderr.split('\n')[0];
  expect(sentence).toMatch(/\.$/);
  expect(stderr).not.toMatch(/\n {4}at /);
  return { code, sentence, stderr };
}

const METAL = ['--material', 'mild-steel', '--thickness', '3', '--current', '30'];

describe('usage', () => {
  test('without a verb, with an unknown one, with an unknown flag: refused with the usage', async () => {
    for (const [args, word] of [
      [[], /verb is missing/],
      [['weld'], /no verb "weld"/],
      [['drills', '--colour'], /--colour/],
      [['coupon', ...METAL, '--speed', '10', '--wobble', '3'], /--wobble/],
    ] as const) {
      const { code, stderr } = await refused(args);
      expect(code).toBe(2);
      expect(stderr).toMatch(word);
      expect(stderr).toContain('Usage:');
    }
  });

  test('help names every verb', async () => {
    const { code, stdout } = await kerfhand(['--help']);
    expect(code).toBe(0);
    for (const verb of ['coupon', 'window', 'limits', 'pierce', 'gouge', 'simulate', 'score', 'verify', 'check', 'drills'])
      expect(stdout).toContain(`  ${verb}`);
  });
});

describe('coupon', () => {
  test('prints one document with exactly the published keys', async () => {
    const result = await kerfhandJson([
      'coupon',
      ...METAL,
      '--speed',
      '14',
      '--stand-off',
      '1.5',
      '--travel-angle',
      '0',
      '--work-angle',
      '-2',
      '--rig',
      '60',
    ]);
    expect(Object.keys(result).sort()).toEqual([
      'arcVoltageV',
      'bottomKerfMm',
      'dragMm',
      'edgeDwellS',
      'energy',
      'quality',
      'severedFraction',
      'sparkAngleDeg',
      'sparkSide',
      'throughPowerFraction',
      'topKerfMm',
    ]);
    expect(Object.keys(result.energy as object).sort()).toEqual(['conductedJ', 'deliveredJ', 'removedJ', 'throughJ']);
    expect(result.quality).toEqual({
      u_mm: expect.any(Number),
      uRange: expect.any(Number),
      rz5_um: expect.any(Number),
      rz5Range: expect.any(Number),
      drag_mm: result.dragMm,
      dross: { kind: expect.stringMatching(/^(none|low-speed|high-speed|top-spatter)$/), mm: expect.any(Number) },
      heatAffectedMm: expect.any(Number),
    });
    const energy = result.energy as Record<string, number>;
    const sum = energy.removedJ + energy.conductedJ + energy.throughJ;
    expect(Math.abs(sum / energy.deliveredJ - 1)).toBeLessThan(0.02);
  });

  test('takes a negative angle as a figure: a leaning handle changes the sparks', async () => {
    const lean = (deg: string) =>
      kerfhandJson<{ sparkAngleDeg: number }>(['coupon', ...METAL, '--speed', '14', '--travel-angle', deg]);
    const [back, ahead] = [await lean('-12'), await lean('12')];
    expect(back.sparkAngleDeg).not.toBe(ahead.sparkAngleDeg);
  });

  test.each([
    [['--material', 'lead', '--thickness', '3', '--current', '30', '--speed', '9'], 2, /--material/],
    [['--material', 'mild-steel', '--thickness', '-3', '--current', '30', '--speed', '9'], 2, /--thickness/],
    [['--material', 'mild-steel', '--thickness', '3mm', '--current', '30', '--speed', '9'], 2, /3mm/],
    [['--material', 'mild-steel', '--thickness', '1e99', '--current', '30', '--speed', '9'], 2, /--thickness/],
    [[...METAL], 2, /--speed is missing/],
    [[...METAL, '--speed', '9', 'extra'], 2, /"extra"/],
    [['--material', 'mild-steel', '--thickness', '3', '--current', '500', '--speed', '9'], 1, /500 A/],
    [['--material', 'mild-steel', '--thickness', '3', '--current', '50', '--speed', '9', '--rig', '40'], 1, /dial/],
    [[...METAL, '--speed', '9', '--rig', '80'], 2, /--rig/],
  ])('%j ends with %d', async (args, code, sentence) => {
    const found = await refused(['coupon', ...args, '--json']);
    expect(found.code).toBe(code);
    expect(found.sentence).toMatch(sentence);
  });
});

describe('window', () => {
  test('prints the four figures, in their order of size', async () => {
    const found = await kerfhandJson<Record<string, number>>(['window', ...METAL]);
    expect(Object.keys(found)).toEqual(['windowLowMmPerS', 'windowHighMmPerS', 'losingSpeedMmPerS', 'edgeDwellS']);
    expect(found.windowLowMmPerS).toBeLessThan(found.windowHighMmPerS);
    expect(found.windowHighMmPerS).toBeLessThanOrEqual(found.losingSpeedMmPerS);
  });

  test('has nulls and a reason where the metal cannot be cut', async () => {
    const found = await kerfhandJson(['window', '--material', 'mild-steel', '--thickness', '25', '--current', '15']);
    expect(found).toMatchObject({ windowLowMmPerS: null, windowHighMmPerS: null, reason: expect.stringMatching(/\.$/) });
  });
});

describe('drills', () => {
  test('lists every shipped drill, each with a file that is there', async () => {
    const { drills } = await kerfhandJson<{ drills: Record<string, unknown>[] }>(['drills'], folder);
    expect(drills.map(({ id }) => `${id}.json`).sort()).toEqual([...DRILL_FILES].sort());
    for (const drill of drills) {
      expect(Object.keys(drill).sort()).toEqual(['file', 'id', 'material', 'technique', 'thicknessMm', 'title']);
      expect(JSON.parse(readFileSync(path.resolve(folder, drill.file as string), 'utf8'))).toMatchObject({ id: drill.id });
    }
  });
});

describe('simulate', () => {
  test('writes a run that verify calls the same and score marks the same', async () => {
    const out = path.join(folder, 'reference.run');
    const run = await kerfhandJson(['simulate', DRILL, '--hand', 'reference', '--seed', '5', '--out', out]);
    expect(run).toMatchObject({ passed: true, seconds: expect.any(Number), realTimeFactor: expect.any(Number) });
    expect(run.digest).toMatch(/^[0-9a-f]{16}$/);
    expect((run.measures as object[])[0]).toMatchObject({
      id: 'severance',
      mark: 100,
      weight: expect.any(Number),
      evidence: expect.any(Array),
    });

    const again = await kerfhandJson(['simulate', DRILL, '--hand', 'reference', '--seed', '5']);
    expect(again.digest).toBe(run.digest);
    const other = await kerfhandJson(['simulate', DRILL, '--hand', 'reference', '--seed', '6']);
    expect(other.digest).not.toBe(run.digest);

    const { realTimeFactor: _factor, seconds: _seconds, ...withoutTiming } = run;
    expect(await kerfhandJson(['score', out])).toEqual(withoutTiming);
    expect(await kerfhand(['verify', out, '--json'])).toMatchObject({
      code: 0,
      stdout: expect.stringContaining('"verdict":"same"'),
      stderr: '',
    });
    expect(await kerfhand(['check', out])).toEqual({ code: 0, stdout: '', stderr: '' });
  });

  test('a hand that fails the drill is no failure of the command', async () => {
    const { code, stdout } = await kerfhand(['simulate', DRILL, '--hand', 'too-slow', '--json']);
    expect(code).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({ passed: false });
  });

  test('takes a hand script and a drill by file', async () => {
    const hand = file(
      'hand.json',
      JSON.stringify({
        format: 'kerfhand-hand',
        formatVersion: 1,
        name: 'Straight through the air',
        steps: [
          { do: 'place', at: { alongMm: 0 }, heightMm: 1.5 },
          { do: 'move', to: { pastEndMm: 5 }, speed: { mmPerS: 40 } },
        ],
      }),
    );
    const run = await kerfhandJson(['simulate', path.join(SCENARIOS, `${DRILL}.json`), '--hand', hand]);
    expect(run).toMatchObject({ score: 0, passed: false });
  });

  test.each([
    [['simulate', 'no-such-drill', '--hand', 'reference'], 1, /no-such-drill/],
    [['simulate', DRILL, '--hand', 'nobody.json'], 1, /no file nobody\.json/],
    [['simulate', DRILL, '--hand', 'reference', '--seed', '1.5'], 1, /whole number/],
    [['simulate', DRILL, '--hand', 'reference', '--seed', '-1'], 2, /--seed/],
    [['simulate', DRILL, '--hand', 'reference', '--out', path.join('no', 'such', 'folder.run')], 1, /no folder/],
    [['simulate'], 2, /DRILL is missing/],
  ])(
    '%j ends with %d',
    async (args, code, sentence) => {
      const found = await refused([...args, '--json']);
      expect(found.code).toBe(code);
      expect(found.sentence).toMatch(sentence);
    },
    120_000,
  );

  test('an output that cannot be written leaves nothing half written', async () => {
    const before = readdirSync(folder);
    await refused(['simulate', DRILL, '--hand', 'reference', '--out', folder]);
    expect(readdirSync(folder)).toEqual(before);
  });
});

describe('check', () => {
  test('a good drill: silence and 0, or {"ok":true}', async () => {
    const drill = path.join(SCENARIOS, `${DRILL}.json`);
    expect(await kerfhand(['check', drill])).toEqual({ code: 0, stdout: '', stderr: '' });
    expect(await kerfhandJson(['check', drill])).toEqual({ ok: true });
  });

  test('a bad one: every problem with its JSON path, and 1', async () => {
    const bad = file('bad.json', JSON.stringify({ ...drillJson(DRILL), title: '', attempts: -1 }));
    const plain = await kerfhand(['check', bad]);
    expect(plain).toMatchObject({ code: 1, stdout: '' });
    expect(plain.stderr).toMatch(/\$\.title.*\n.*\$\.attempts/);
    const json = await kerfhand(['check', bad, '--json']);
    expect(json.code).toBe(1);
    expect(JSON.parse(json.stdout)).toEqual({
      ok: false,
      problems: [
        { path: '$.title', sentence: expect.any(String) },
        { path: '$.attempts', sentence: expect.any(String) },
      ],
    });
  });

  test.each([
    [
      'a drill that cannot be cut',
      () => JSON.stringify({ ...drillJson(DRILL), rig: { ...(drillJson(DRILL).rig as object), class: '40', currentA: 99 } }),
      '$.rig.currentA',
    ],
    ['broken JSON', () => '{\n "format": }', 'line 2, column 12'],
    ['a newer drill', () => JSON.stringify({ ...drillJson(DRILL), formatVersion: 9 }), '$.formatVersion'],
    [
      'a bad hand',
      () =>
        '{"format":"kerfhand-hand","formatVersion":1,"name":"x","steps":[{"do":"trigger","on":true},{"do":"trigger","on":false}]}',
      '$.steps[0].do',
    ],
    ['something else', () => '{"format":"shopping-list"}', '$.format'],
  ])('%s', async (name, content, place) => {
    const { code, stdout } = await kerfhand(['check', file(`${name}.json`, content()), '--json']);
    expect(code).toBe(1);
    expect(JSON.parse(stdout)).toMatchObject({ ok: false, problems: [{ path: place }] });
  });

  test('a file that is not there, or a folder, is a sentence', async () => {
    expect((await refused(['check', 'nothing.json'])).sentence).toMatch(/no file nothing\.json/);
    expect((await refused(['check', folder])).sentence).toMatch(/folder/);
  });
});

describe('pierce, limits and gouge', () => {
  test('pierce prints exactly the published keys', async () => {
    const result = await kerfhandJson(['pierce', ...METAL, '--method', 'rolling']);
    expect(Object.keys(result).sort()).toEqual(['blowbackDose', 'brokeThrough', 'craterTopMm', 'spentLifeFraction', 'timeS']);
    expect(result.brokeThrough).toBe(true);
    expect(result.blowbackDose).toBeGreaterThan(0);
    expect(result.craterTopMm).toBeGreaterThan(1);
    expect(result.spentLifeFraction).toBeGreaterThan(0);
    expect(result.timeS).toBeLessThan(2);
  });

  test('limits prints exactly the published keys, piercing about half of severing', async () => {
    const result = await kerfhandJson(['limits', '--material', 'mild-steel', '--current', '40', '--rig', '60']);
    expect(Object.keys(result).sort()).toEqual(['piercingMm', 'severingMm']);
    expect(Number(result.piercingMm) / Number(result.severingMm)).toBeGreaterThan(0.4);
    expect(Number(result.piercingMm) / Number(result.severingMm)).toBeLessThan(0.6);
  });

  test('gouge prints exactly the published keys; a second pass deepens', async () => {
    const args = ['gouge', '--current', '60', '--travel-angle', '40', '--speed', '10', '--stand-off', '3'];
    const once = await kerfhandJson(args);
    expect(Object.keys(once).sort()).toEqual(['evenness', 'grooveDepthMm', 'grooveWidthMm']);
    const twice = await kerfhandJson([...args, '--passes', '2']);
    expect(Number(twice.grooveDepthMm)).toBeGreaterThan(Number(once.grooveDepthMm));
  });

  test('what cannot be set up is refused with the reason', async () => {
    expect((await refused(['pierce', ...METAL, '--method', 'sideways'])).sentence).toMatch(/--method must be/);
    expect((await refused(['limits', '--material', 'mild-steel', '--current', '70', '--rig', '40'])).sentence).toMatch(/dial/);
    const gouge = ['gouge', '--current', '60', '--travel-angle', '40', '--speed', '10', '--stand-off', '3'];
    expect((await refused([...gouge, '--passes', '1.5'])).sentence).toMatch(/passes/);
    expect((await refused(gouge.slice(0, 5))).sentence).toMatch(/--speed is missing/);
  });
});
