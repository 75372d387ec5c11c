// Drill packs: what was packed comes out again, damage is seen, and nothing on a shelf is replaced without having been chosen.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { contentHash, readDrillText } from '../../electron/host/drill-text.ts';
import { canonicalJson } from '../../electron/host/papers/canonical-json.ts';
import { encodePack, readPack } from '../../electron/host/papers/drill-pack.ts';
import { type PackRowKind, planPackImport, previewPack, type ShelvedDrill } from '../../electron/host/papers/preview-pack.ts';
import { publishedPackSchema } from '../../electron/host/papers/published-pack-schema.ts';
import { publishedSchemas } from '../../sim-core/drill/published-schemas.ts';
import { drillText, SCENARIOS } from '../scenarios/drill-files.ts';
import { realRunText } from './signed-run.ts';

const ABOUT = { title: 'Edges', about: 'Three straight edges.', madeAt: '2030-02-01T10:15:00.000Z' };
const PATCH = 'guard-patch-straight-3';
const TAB = 'hanger-tab-straight-6';
let demonstration: string;
let pack: string;

/** A drill of the house under another title and id: another version, another drill. */
function own(id: string, title: string): string {
  return JSON.stringify({ ...(JSON.parse(drillText(`${TAB}.json`)) as object), id, title });
}
const hashOf = (text: string) => readDrillText(text).hash;
const V1 = own('my-edge', 'Version 1');
const V2 = own('my-edge', 'Version 2');
const V3 = own('my-edge', 'Version 3');

beforeAll(() => {
  demonstration = realRunText(3);
  pack = encodePack(ABOUT, [
    { text: drillText(`${PATCH}.json`), earlier: [], demonstration },
    { text: V2, earlier: [hashOf(V1), hashOf(V1), hashOf(V2)], demonstration: null },
  ]);
});

/** The pack with its content changed and its digest made anew, as a careful forger would. */
function forged(
  change: (file: { drills: { sha256: string; drill: Record<string, unknown>; demonstration: string | null }[] }) => void,
): string {
  const { sha256: _old, ...body } = JSON.parse(pack) as { sha256: string; drills: [] };
  change(body);
  return JSON.stringify({ ...body, sha256: createHash('sha256').update(canonicalJson(body)).digest('hex') });
}

describe('a pack', () => {
  test('gives back drills, their versions and their demonstrations', () => {
    const { drills, ...about } = readPack(pack);
    expect(about).toEqual(ABOUT);
    expect(drills).toHaveLength(2);
    expect(drills[0]).toMatchObject({ ok: true, read: { hash: contentHash(drillText(`${PATCH}.json`)) }, demonstration });
    expect(drills[1]).toMatchObject({ ok: true, read: { hash: hashOf(V2) }, earlier: [hashOf(V1)], demonstration: null });
  });
  test('may be laid out anew, its keys in any order, and is still the same pack', () => {
    const turned = JSON.stringify(Object.fromEntries(Object.entries(JSON.parse(pack) as object).toReversed()), null, 4);
    expect(readPack(turned)).toEqual(readPack(pack));
  });
  test('of which one character was changed is not taken', () => {
    fc.assert(
      fc.property(fc.nat(pack.length - 2), fc.constantFrom('0', 'a', 'z', ' '), (place, character) => {
        fc.pre(pack[place] !== character);
        const changed = pack.slice(0, place) + character + pack.slice(place + 1);
        let read: unknown = null;
        try {
          read = readPack(changed);
        } catch {
          return;
        }
        // Space between tokens is no part of the content.
        expect(JSON.parse(changed)).toEqual(JSON.parse(pack));
        expect(read).toEqual(readPack(pack));
      }),
      { seed: 20_260_110, numRuns: 60 },
    );
  });
  test.each([
    ['', 'damaged at line 1'],
    ['{"format":"kerfhand-drill"}', 'not a drill pack'],
    ['[]', 'not a drill pack'],
    ['{"format":"kerfhand-pack","formatVersion":2}', 'formatVersion 2'],
    ['{"format":"kerfhand-pack","formatVersion":1}', 'not as it must be: $.title'],
    [' '.repeat(24 * 1024 * 1024 + 1), 'at most'],
  ])('that is none is refused as a whole', (text, sentence) => {
    expect(() => readPack(text)).toThrow(sentence);
  });
  test('with one bad drill keeps the others', () => {
    const changed = forged(({ drills }) => {
      drills[1].drill.title = 'Changed behind its digest';
    });
    expect(readPack(changed).drills).toMatchObject([
      { ok: true },
      { ok: false, name: 'my-edge', reason: expect.stringContaining('digest') },
    ]);
    const broken = forged(({ drills }) => {
      drills[1].drill.rig = {};
      drills[1].sha256 = contentHash(JSON.stringify(drills[1].drill));
    });
    expect(readPack(broken).drills[1]).toMatchObject({ ok: false, reason: expect.stringContaining('$.rig') });
    const twice = forged(({ drills }) => {
      drills[1] = drills[0];
    });
    expect(readPack(twice).drills[1]).toMatchObject({ ok: false, reason: expect.stringContaining('earlier in the pack') });
    const foreign = forged(({ drills }) => {
      drills[1].demonstration = drills[0].demonstration;
    });
    expect(readPack(foreign).drills[1]).toMatchObject({ ok: false, reason: expect.stringContaining('another version') });
  });
  test('is not written empty, with two drills of one id, a broken drill, or a demonstration of another drill', () => {
    const plain = { earlier: [], demonstration: null };
    expect(() => encodePack(ABOUT, [])).toThrow('at least one drill');
    expect(() =>
      encodePack(ABOUT, [
        { ...plain, text: V1 },
        { ...plain, text: V2 },
      ]),
    ).toThrow('my-edge stands twice');
    expect(() => encodePack(ABOUT, [{ ...plain, text: '{}' }])).toThrow('$.format');
    expect(() => encodePack(ABOUT, [{ ...plain, text: V1, demonstration }])).toThrow('another version of the drill');
    expect(() => encodePack({ ...ABOUT, title: ' ' }, [{ ...plain, text: V1 }])).toThrow('$.title');
  });
});

describe('a preview', () => {
  const shelved = (text: string, versions: string[], source: ShelvedDrill['source'] = 'own'): ShelvedDrill => {
    const { drill, hash } = readDrillText(text);
    return { id: drill.id, hash, title: drill.title, source, versions: versions.map(hashOf) };
  };
  const patch = () => shelved(drillText(`${PATCH}.json`), [drillText(`${PATCH}.json`)], 'shipped');
  const cases: [string, PackRowKind, () => ShelvedDrill[]][] = [
    ['nothing of the kind', 'new', () => []],
    ['this very version', 'same', () => [shelved(V2, [V1, V2])]],
    ['the version before', 'newer', () => [shelved(V1, [V1])]],
    ['a later version', 'older', () => [shelved(V3, [V1, V2, V3])]],
    ['a different drill of this id', 'clash', () => [shelved(V3, [V3])]],
    ['a shipped drill of this id', 'shipped', () => [shelved(V3, [V3], 'shipped')]],
  ];

  test.each(cases)('where the shelf has %s says %s', (_, kind, shelf) => {
    const { rows, title } = previewPack(readPack(pack), shelf());
    expect(title).toBe('Edges');
    expect(rows[1]).toMatchObject({ kind, id: 'my-edge', title: 'Version 2', hash: hashOf(V2), hasDemonstration: false });
    expect(rows[1].here).toBe(kind === 'new' ? null : (shelf()[0].title ?? null));
  });
  test.each(cases)('and where the shelf has %s, nothing chosen replaces only what it follows on', (_, kind, shelf) => {
    const steps = planPackImport(readPack(pack), [patch(), ...shelf()], {});
    const expected = kind === 'new' ? ['add'] : kind === 'newer' ? ['replace'] : [];
    expect(steps.map(({ choice }) => choice)).toEqual(expected);
    if (steps.length > 0) expect(hashOf(steps[0].text)).toBe(hashOf(V2));
  });
  test('choices are kept to: a clash replaced, both kept, a new one left', () => {
    const clash = [shelved(V3, [V3])];
    const plan = (choice: 'replace' | 'keep-both' | 'leave') =>
      planPackImport(readPack(pack), clash, { [PATCH]: 'leave', 'my-edge': choice });
    expect(plan('replace')).toMatchObject([{ choice: 'replace', id: 'my-edge' }]);
    expect(plan('keep-both')).toMatchObject([{ choice: 'keep-both', id: 'my-edge' }]);
    expect(plan('leave')).toEqual([]);
  });
  test('the demonstration goes along with its version, and not with a renamed copy', () => {
    expect(planPackImport(readPack(pack), [], {})[0]).toMatchObject({ choice: 'add', id: PATCH, demonstration });
    const other = { ...patch(), hash: 'f'.repeat(64), versions: [] };
    expect(planPackImport(readPack(pack), [other], { [PATCH]: 'keep-both' })[0]).toMatchObject({
      choice: 'keep-both',
      demonstration: null,
    });
  });
  test('a choice that a drill does not have, or for a drill that is not there, is refused', () => {
    expect(() => planPackImport(readPack(pack), [shelved(V2, [V2])], { 'my-edge': 'replace' })).toThrow(
      'cannot be taken in as "replace": it is same here',
    );
    expect(() => planPackImport(readPack(pack), [patch()], { nothing: 'add' })).toThrow('no good drill nothing');
    const shipped = [shelved(V3, [V3], 'shipped')];
    expect(() => planPackImport(readPack(pack), shipped, { 'my-edge': 'replace' })).toThrow('it is shipped here');
  });
  test('tells a wrong drill with its reason', () => {
    const changed = forged(({ drills }) => {
      drills[1].drill.title = 'Changed';
    });
    expect(previewPack(readPack(changed), []).rows[1]).toMatchObject({
      kind: 'wrong',
      id: 'my-edge',
      choices: ['leave'],
      hash: null,
    });
    expect(planPackImport(readPack(changed), [], {})).toHaveLength(1);
  });
});

test('the published schema is the one that packs are read by: it takes a pack, and none with a drill that is no drill', () => {
  const { fileName, schema } = publishedPackSchema();
  const published: unknown = JSON.parse(readFileSync(path.join(SCENARIOS, fileName), 'utf8'));
  expect(published, 'write it anew: node tests/scenarios/write-schemas.ts').toEqual(JSON.parse(JSON.stringify(schema)));
  const drill = publishedSchemas().find((one) => one.fileName === 'drill.schema.json')?.schema ?? {};
  const validate = new Ajv2020({ strict: false, formats: { 'date-time': true } }).addSchema(drill).compile(schema);
  const whole = JSON.parse(pack) as { drills: { drill: { plate: object } }[] };
  expect(validate(whole), JSON.stringify(validate.errors)).toBe(true);
  expect(validate({ ...whole, drills: [] })).toBe(false);
  const wrong = structuredClone(whole);
  wrong.drills[0].drill.plate = {};
  expect(validate(wrong)).toBe(false);
});
