// Run files: what was written comes back; what was touched is told apart: damaged, different, other-core.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  appendHandTick,
  type CompletedRun,
  createHandLog,
  decodeRunFile,
  encodeHandLog,
  encodeRunFile,
  faultHand,
  fromBase64,
  type RunFile,
  readHandTick,
  readTrace,
  runFileOf,
  runHand,
  SAMPLE_FIELDS,
  sameJson,
  sha256Hex,
  storeTrace,
  TRACE_HZ,
  toBase64,
  verifyRunFile,
  windowOfDrill,
} from '../../sim-core/index.ts';
import { utf8Bytes } from '../../sim-core/math/utf-8.ts';
import { drillText, shippedDrill } from '../scenarios/drill-files.ts';
import { kerfhand } from './run-kerfhand.ts';

const ID = 'guard-patch-straight-3';
let run: CompletedRun;
let kept: RunFile;
let text: string;
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'kerfhand-run-file-'));
  const drill = shippedDrill(ID);
  run = runHand(drill, faultHand('stops-short', drill, windowOfDrill(drill)).script, 3);
  kept = { ...runFileOf(run, drillText(`${ID}.json`), 'Hand – with a “name” 😀'), handScale: null };
  text = encodeRunFile(kept);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The file with its first line changed and sealed again, as a forger would. */
function forged(change: (head: Record<string, unknown>) => void): string {
  const head = JSON.parse(text.split('\n')[0]) as Record<string, unknown>;
  change(head);
  const line = JSON.stringify(head);
  return `${line}\n{"sha256":"${sha256Hex(utf8Bytes(line))}"}\n`;
}

/** The inputs with one tick's x moved by a hundredth of a millimetre. */
function nudgedInputs(): string {
  const log = createHandLog();
  const tick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 as 0 | 1 };
  for (let i = 0; i < run.log.length; i++) {
    readHandTick(run.log, i, tick);
    if (i === 700) tick.x++;
    appendHandTick(log, tick);
  }
  return toBase64(encodeHandLog(log));
}

describe('a run file', () => {
  test('is two lines, the second the digest of the first', () => {
    const lines = text.split('\n');
    expect(lines).toHaveLength(3);
    expect(lines[2]).toBe('');
    expect(JSON.parse(lines[1])).toEqual({ sha256: sha256Hex(new TextEncoder().encode(lines[0])) });
  });

  test('read and written again is the same file, byte for byte: a signature over it still fits', () => {
    const read = decodeRunFile(text);
    expect(read.ok && encodeRunFile(read.run) === text).toBe(true);
  });

  test('gives back what was put in', () => {
    const read = decodeRunFile(text);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const { drill, log, ...rest } = read.run;
    expect({ ...rest, drillText: JSON.parse(rest.drillText) }).toEqual({ ...kept, drillText: JSON.parse(kept.drillText) });
    expect(drill).toEqual(run.drill);
    expect(log.length).toBe(run.log.length);
    const again = encodeRunFile(read.run).split('\n')[0];
    expect(sameJson(JSON.parse(again), JSON.parse(text.split('\n')[0]))).toBe(true);
  });

  test('holds the trace: every eighth sample of every figure', () => {
    const columns = readTrace(storeTrace(run.samples));
    const stride = 240 / TRACE_HZ;
    for (const field of SAMPLE_FIELDS) {
      expect(columns[field]).toHaveLength(Math.floor(run.samples.length / stride));
      for (const row of [0, 17, columns[field].length - 1]) {
        expect(columns[field][row]).toBe(Math.fround(run.samples.columns[field][(row + 1) * stride - 1]));
      }
    }
  });
});

describe('verify', () => {
  test('same: cut again, it comes out as it is kept', () => {
    expect(verifyRunFile(text).verdict).toBe('same');
  });

  test('damaged: any change of any one byte, wherever it is', () => {
    const bytes = Buffer.from(text, 'utf8');
    fc.assert(
      fc.property(fc.nat(bytes.length - 1), fc.integer({ min: 1, max: 255 }), (at, by) => {
        const changed = Buffer.from(bytes);
        changed[at] = (changed[at] + by) & 255;
        expect(verifyRunFile(changed.toString('utf8')).verdict, `byte ${at} + ${by}`).toBe('damaged');
      }),
      {
        seed: 20_260_111,
        numRuns: 60,
        examples: [
          [0, 1],
          [bytes.length - 1, 1],
          [bytes.length - 2, 1],
          [bytes.indexOf(10), 3],
        ],
      },
    );
  });

  test.each([
    ['an end cut off', (whole: string) => whole.slice(0, -1)],
    ['a line too many', (whole: string) => `${whole}\n`],
    ['a byte order mark', (whole: string) => `\uFEFF${whole}`],
    ['other line ends', (whole: string) => whole.replaceAll('\n', '\r\n')],
    ['nothing', () => ''],
    ['no run file at all', () => 'hello\n{"sha256":"x"}\n'],
  ])('damaged: %s', (_what, spoil) => {
    expect(verifyRunFile(spoil(text)).verdict).toBe('damaged');
  });

  test.each<[string, (head: Record<string, unknown>) => void]>([
    [
      'the inputs',
      (head) => {
        head.inputs = nudgedInputs();
      },
    ],
    [
      'the thickness of the plate',
      (head) => {
        (head.drill as { plate: { thicknessMm: number } }).plate.thicknessMm = 3.5;
      },
    ],
    [
      'a digest',
      (head) => {
        (head.digests as string[])[2] = '0000000000000000';
      },
    ],
    [
      'a digest too few',
      (head) => {
        (head.digests as string[]).pop();
      },
    ],
    [
      'the last digest',
      (head) => {
        head.finalDigest = null;
      },
    ],
    [
      'the score',
      (head) => {
        (head.score as { score: number }).score = 99;
      },
    ],
    [
      'the pass',
      (head) => {
        (head.score as { passed: boolean }).passed = true;
      },
    ],
    [
      'the weight of a measure, in drill and score',
      (head) => {
        (head.drill as { rubric: { measures: { weight: number }[] } }).rubric.measures[0].weight = 9;
      },
    ],
    [
      'the trace',
      (head) => {
        (head.trace as { columns: string }).columns = toBase64(new Uint8Array(64));
      },
    ],
    [
      'results in a run that claims to be unfinished',
      (head) => {
        head.finished = false;
      },
    ],
  ])(
    'different: %s forged, and sealed again',
    (_what, change) => {
      expect(verifyRunFile(forged(change))).toMatchObject({ verdict: 'different', reason: expect.stringMatching(/\.$/) });
    },
    60_000,
  );

  test('other-core: made by another physics, or by a newer program', () => {
    const other = verifyRunFile(
      forged((head) => {
        head.coreVersion = '0.9.0';
      }),
    );
    expect(other).toMatchObject({ verdict: 'other-core', reason: expect.stringMatching(/0\.9\.0/) });
    expect(
      verifyRunFile(
        forged((head) => {
          head.formatVersion = 4;
        }),
      ),
    ).toMatchObject({ verdict: 'other-core', reason: expect.stringMatching(/4.*3/) });
  });

  test.each<[string, (head: Record<string, unknown>) => void, RegExp]>([
    [
      'inputs that are no log',
      (head) => {
        head.inputs = toBase64(new Uint8Array([255, 255, 255]));
      },
      /inputs/,
    ],
    [
      'fewer ticks than it says',
      (head) => {
        head.tickCount = 5;
      },
      /tick/,
    ],
    [
      'an unknown field',
      (head) => {
        head.extra = 1;
      },
      /extra/,
    ],
    [
      'a drill that is none',
      (head) => {
        head.drill = {};
      },
      /\$\.drill\.format/,
    ],
  ])('damaged: %s, though the seal fits', (_what, change, reason) => {
    expect(verifyRunFile(forged(change))).toMatchObject({ verdict: 'damaged', reason: expect.stringMatching(reason) });
  });

  test('an unfinished run is whole as far as it goes', () => {
    const broken = encodeRunFile({ ...kept, finished: false, digests: [], finalDigest: null, trace: null, score: null });
    expect(verifyRunFile(broken)).toMatchObject({ verdict: 'same', reason: expect.stringMatching(/not finished/) });
  });

  test('exit codes: 0 same, 3 different, 4 other-core, 5 damaged', async () => {
    const bytes = Buffer.from(text, 'utf8');
    bytes[400] ^= 0x80;
    const cases: [string, string | Buffer, number][] = [
      ['same', text, 0],
      [
        'different',
        forged((head) => {
          head.inputs = nudgedInputs();
        }),
        3,
      ],
      [
        'other-core',
        forged((head) => {
          head.coreVersion = '0.0.1';
        }),
        4,
      ],
      ['damaged', bytes, 5],
    ];
    for (const [verdict, content, code] of cases) {
      const file = path.join(folder, `${verdict}.run`);
      writeFileSync(file, content);
      const found = await kerfhand(['verify', file, '--json']);
      expect(found.code, verdict).toBe(code);
      expect(JSON.parse(found.stdout)).toMatchObject({ verdict });
    }
    expect((await kerfhand(['verify', path.join(folder, 'none.run')])).code).toBe(1);
  });
});

test('base64 stands one to one with bytes', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
      expect(toBase64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
      expect(fromBase64(toBase64(bytes))).toEqual(bytes);
    }),
    { seed: 20_260_111 },
  );
  for (const bad of ['A', 'AAA', 'AB==', 'AAB=', 'A*==', '====', 'AA=A']) expect(() => fromBase64(bad), bad).toThrow(RangeError);
});

test('text becomes the same UTF-8 as everywhere', () => {
  const encoder = new TextEncoder();
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 50 }), (text) => {
      expect(Array.from(utf8Bytes(text))).toEqual(Array.from(encoder.encode(text)));
    }),
    { seed: 20_260_111 },
  );
  expect(Array.from(utf8Bytes('\ud800x\udc00'))).toEqual(Array.from(encoder.encode('\ud800x\udc00')));
});
