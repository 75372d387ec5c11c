// Scripted hands: what a file may say, and that what is done with it is what a hand can do.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { HAND_FORMAT_VERSION } from '../../sim-core/drill/hand-script-schema.ts';
import { HAND_MIGRATIONS } from '../../sim-core/drill/parse-hand-script.ts';
import { publishedSchemas } from '../../sim-core/drill/published-schemas.ts';
import { HAND_ACCELERATION_MM_PER_S2 } from '../../sim-core/hand/glide.ts';
import {
  createScriptedHand,
  FAULT_HAND_IDS,
  faultHand,
  faultsOf,
  type HandSight,
  parseHandScript,
  referenceHand,
  TICK_HZ,
} from '../../sim-core/index.ts';
import { shippedDrill } from './drill-files.ts';

const drill = shippedDrill('gangway-bracket-corner-6');
const straight = shippedDrill('hanger-tab-straight-6');
const window = { windowLowMmPerS: 12, windowHighMmPerS: 20, edgeDwellS: 0.2 };

/** Metal that the arc is through at once: what the hand does then is all its own. */
const THROUGH: HandSight = { transferred: true, isOpenAlongAxis: () => true };
const NEVER: HandSight = { transferred: false, isOpenAlongAxis: () => false };

function script(steps: unknown[], habits: object = {}) {
  const result = parseHandScript(
    JSON.stringify({ format: 'kerfhand-hand', formatVersion: HAND_FORMAT_VERSION, name: 'Test hand', habits, steps }),
  );
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

interface Place {
  xMm: number;
  yMm: number;
  heightMm: number;
  leanXDeg: number;
  leanYDeg: number;
  trigger: number;
}

function play(steps: unknown[], options: { habits?: object; sight?: HandSight; seed?: number; on?: typeof drill } = {}): Place[] {
  const hand = createScriptedHand({
    script: script(steps, options.habits),
    drill: options.on ?? straight,
    window,
    seed: options.seed ?? 1,
  });
  const places: Place[] = [];
  while (!hand.done && places.length < 100_000) {
    const { x, y, height, leanX, leanY, trigger } = hand.next(options.sight ?? THROUGH);
    places.push({ xMm: x / 100, yMm: y / 100, heightMm: height / 100, leanXDeg: leanX / 20, leanYDeg: leanY / 20, trigger });
  }
  return places;
}

const start = { do: 'place', at: { alongMm: 0 }, heightMm: 1.5 };

describe('a file', () => {
  test.each([
    [[{ do: 'trigger', on: true }, start], '$.steps[0].do'],
    [[], '$.steps'],
    [[start], '$.steps'],
    [[start, { do: 'wait', for: 'seconds' }], '$.steps[1].seconds'],
    [[start, { do: 'wait', for: 'break-through', seconds: 1 }], '$.steps[1].seconds'],
    [[start, { do: 'move', to: { alongMm: 5 }, speed: { mmPerS: 0 } }], '$.steps[1].speed.mmPerS'],
    [[start, { do: 'move', to: { alongMm: 5, xMm: 1 }, speed: { mmPerS: 5 } }], '$.steps[1].to.xMm'],
    [[start, { do: 'dance' }], '$.steps[1].do'],
    [[start, { do: 'lean', workAngleDeg: 89, overS: 1 }], '$.steps[1].workAngleDeg'],
  ])('with steps %j is refused at %s', (steps, place) => {
    const result = parseHandScript(JSON.stringify({ format: 'kerfhand-hand', formatVersion: 1, name: 'x', steps }));
    expect(result.ok ? [] : result.problems.map((problem) => problem.path)).toContain(place);
  });

  test('of every built-in hand is valid by the published schema', () => {
    const published = publishedSchemas().find(({ fileName }) => fileName === 'hand.schema.json');
    const validate = new Ajv2020({ strict: false }).compile(published?.schema ?? false);
    for (const hand of [
      referenceHand(drill, window),
      ...faultsOf(drill).map((fault) => faultHand(fault, drill, window).script),
    ]) {
      expect(validate(hand), JSON.stringify(validate.errors)).toBe(true);
      expect(parseHandScript(JSON.stringify(hand))).toMatchObject({ ok: true, migratedFrom: null });
    }
    expect(
      validate({
        format: 'kerfhand-hand',
        formatVersion: HAND_FORMAT_VERSION,
        name: 'x',
        steps: [{ do: 'dance' }, { do: 'dance' }],
      }),
    ).toBe(false);
  });

  test('of a newer version is refused with both versions named', () => {
    const result = parseHandScript('{"format":"kerfhand-hand","formatVersion":9}');
    expect(result.ok ? '' : result.problems[0].sentence).toMatch(/9.*2/);
  });
});

describe('an old file', () => {
  test('of version 1 is read as it was meant, step by step named', () => {
    expect(HAND_MIGRATIONS.map(({ from }) => from)).toEqual([1]);
    const text = readFileSync(path.join(import.meta.dirname, 'old-files', 'hand-version-1.json'), 'utf8');
    const result = parseHandScript(text);
    expect(result).toMatchObject({ ok: true, migratedFrom: 1 });
    const { formatVersion: _old, ...meant } = JSON.parse(text) as Record<string, unknown>;
    expect(result.ok && result.value).toMatchObject({ ...meant, formatVersion: HAND_FORMAT_VERSION });
  });
});

describe('the steps', () => {
  test('place: the run begins there, whatever the drill', () => {
    const [first] = play([start, { do: 'trigger', on: true }, { do: 'wait', for: 'seconds', seconds: 0.1 }]);
    expect(first).toEqual({ xMm: 0, yMm: 60, heightMm: 1.5, leanXDeg: 0, leanYDeg: 0, trigger: 1 });
  });

  test('wait: for seconds, and no longer', () => {
    expect(play([start, { do: 'wait', for: 'seconds', seconds: 1.5 }])).toHaveLength(1.5 * TICK_HZ);
  });

  test('wait for break-through: until it is seen, plus the reaction time, or until patience ends', () => {
    const wait = { do: 'wait', for: 'break-through', atMostS: 2 };
    expect(play([start, wait], { sight: NEVER })).toHaveLength(2 * TICK_HZ);
    expect(play([start, wait], { habits: { reactionS: 0.25 } }).length / TICK_HZ).toBeCloseTo(0.25, 1);
    const asked: number[] = [];
    const looking: HandSight = {
      transferred: true,
      isOpenAlongAxis(xMm) {
        asked.push(xMm);
        return true;
      },
    };
    play([start, wait], { sight: looking });
    expect(asked[0], 'looks into the metal ahead of the axis, not at the edge it stands over').toBeGreaterThan(0);
  });

  test('move: at the speed, in mm/s or of the window, along the line', () => {
    for (const [speed, mmPerS] of [
      [{ mmPerS: 9 }, 9],
      [{ inWindow: 0.5 }, 16],
      [{ inWindow: 1.5 }, 24],
      [{ timesMiddle: 0.5 }, 8],
    ] as const) {
      const places = play([start, { do: 'move', to: { pastEndMm: 5 }, speed }]);
      const at = (seconds: number) => places[seconds * TICK_HZ];
      const way = Math.hypot(at(3).xMm - at(1).xMm, at(3).yMm - at(1).yMm);
      expect(way / 2, JSON.stringify(speed)).toBeCloseTo(mmPerS, 1);
    }
    const round = play([start, { do: 'move', to: { pastEndMm: 5 }, speed: { mmPerS: 15 } }], { on: drill }).at(-1);
    expect(round?.xMm).toBeCloseTo(80, 1);
    expect(round?.yMm).toBeCloseTo(105, 1);
  });

  test('move to a point: straight there', () => {
    const places = play([start, { do: 'move', to: { xMm: 30, yMm: 20 }, speed: { mmPerS: 20 } }]);
    expect(places.at(-1)).toMatchObject({ xMm: 30, yMm: 20 });
    for (const { xMm, yMm } of places) expect(Math.abs((60 - yMm) * 30 - xMm * 40) / 50).toBeLessThan(0.02);
  });

  test('a speed of a window that does not exist is refused with a sentence', () => {
    const nothing = { windowLowMmPerS: null, windowHighMmPerS: null, edgeDwellS: null };
    const moves = script([start, { do: 'move', to: { pastEndMm: 5 }, speed: { inWindow: 0.5 } }]);
    expect(() => createScriptedHand({ script: moves, drill, window: nothing, seed: 1 })).toThrow(/speed window/);
  });

  test('lean: in and across the travel, whichever way the line heads, the axis staying on its place', () => {
    const lean = { do: 'lean', travelAngleDeg: 10, workAngleDeg: -20, overS: 0.5 };
    const end = play([start, lean]).at(-1) as Place;
    expect(end).toMatchObject({ leanXDeg: 10, leanYDeg: -20 });
    expect(end.xMm - 1.5 * Math.tan((10 * Math.PI) / 180)).toBeCloseTo(0, 1);
    const north = play([{ ...start, at: { pastEndMm: 0 } }, lean], { on: drill }).at(-1) as Place;
    expect(north.leanYDeg, 'travel is now toward +y').toBeCloseTo(10, 5);
    expect(north.leanXDeg, 'so right of travel is +x').toBeCloseTo(20, 5);
  });

  test('lean about the tip: the tip stays, the place where the axis meets the plate goes', () => {
    const high = { ...start, heightMm: 3 };
    const [back, upright] = [-45, 0].map((travelAngleDeg) => ({ do: 'lean', travelAngleDeg, about: 'tip', overS: 0.5 }));
    const places = play([high, back, upright]);
    for (const { xMm, yMm } of places) expect(Math.hypot(xMm, yMm - 60)).toBeLessThan(0.03);
    expect(places[0.5 * TICK_HZ]?.leanXDeg).toBeCloseTo(-45, 0);
    expect(places.at(-1)?.leanXDeg).toBe(0);
  });

  test('a hand that bears against a straight edge runs along it; without one it runs beside the line', () => {
    const move = { do: 'move', to: { pastEndMm: 2 }, speed: { mmPerS: 20 } };
    const bears = { bearsLeftMm: 2 };
    for (const { yMm } of play([start, move], { habits: bears })) expect(yMm).toBeCloseTo(62, 1);
    const guide = { kind: 'straight-edge' as const, side: 'left' as const, offsetMm: 8 };
    for (const { yMm } of play([start, move], { habits: bears, on: { ...straight, guide } })) expect(yMm).toBeCloseTo(60, 1);
  });

  test('height and lean with "meanwhile" go on during the next steps', () => {
    const height = { do: 'height', heightMm: 6, overS: 1 };
    const wait = { do: 'wait', for: 'seconds', seconds: 1 };
    expect(play([start, height, wait]).length / TICK_HZ).toBeCloseTo(2, 1);
    const together = play([start, { ...height, meanwhile: true }, wait]);
    expect(together.length / TICK_HZ).toBeCloseTo(1, 1);
    expect(together.at(-1)?.heightMm).toBeCloseTo(6, 1);
  });
});

describe('the hand', () => {
  test('is the same for the same seed, and another for another', () => {
    const habits = { tremorMm: 0.2, heightTremorMm: 0.1, leanTremorDeg: 1 };
    const steps = [start, { do: 'move', to: { pastEndMm: 5 }, speed: { inWindow: 0.5 } }];
    expect(play(steps, { habits, seed: 5 })).toEqual(play(steps, { habits, seed: 5 }));
    expect(play(steps, { habits, seed: 5 })).not.toEqual(play(steps, { habits, seed: 6 }));
  });

  test('trembles as much as its habits say', () => {
    const still = play([start, { do: 'wait', for: 'seconds', seconds: 60 }], { habits: { tremorMm: 0.5 } });
    const mean = still.reduce((sum, { xMm }) => sum + xMm, 0) / still.length;
    const rms = Math.sqrt(still.reduce((sum, { xMm }) => sum + (xMm - mean) ** 2, 0) / still.length);
    expect(rms).toBeGreaterThan(0.4);
    expect(rms).toBeLessThan(0.6);
  });

  test.each(FAULT_HAND_IDS.filter((fault) => faultsOf(straight).includes(fault)))(
    '%s: never jumps, and never speeds up faster than an arm can',
    (fault) => {
      for (const on of [drill, straight].filter((candidate) => faultsOf(candidate).includes(fault))) {
        const hand = createScriptedHand({ script: faultHand(fault, on, window).script, drill: on, window, seed: 3 });
        const places: [number, number][] = [];
        while (!hand.done) {
          const tick = hand.next(THROUGH);
          places.push([tick.x / 100, tick.y / 100]);
        }
        // Over 50 ms: shorter spans see the hundredth of a millimetre that inputs are rounded to.
        const span = 12;
        for (let i = 2 * span; i < places.length; i++) {
          const [ax, ay] = places[i - 2 * span];
          const [bx, by] = places[i - span];
          const [cx, cy] = places[i];
          const acceleration = Math.hypot(cx - 2 * bx + ax, cy - 2 * by + ay) * (TICK_HZ / span) ** 2;
          expect(acceleration, `tick ${i}`).toBeLessThan(1.6 * HAND_ACCELERATION_MM_PER_S2);
          expect(Math.hypot(cx - places[i - 1][0], cy - places[i - 1][1])).toBeLessThan(0.6);
        }
      }
    },
  );

  test('takes a sharp corner slowly', () => {
    const corner = {
      start: { xMm: 0, yMm: 60 },
      segments: [
        { kind: 'line' as const, to: { xMm: 40, yMm: 60 } },
        { kind: 'line' as const, to: { xMm: 40, yMm: 0 } },
      ],
    };
    const places = play([start, { do: 'move', to: { pastEndMm: 0 }, speed: { mmPerS: 30 } }], {
      on: { ...straight, path: corner },
    });
    const turn = places.findIndex(({ yMm }) => yMm < 60);
    const before = places[turn - 4];
    const speed = (Math.hypot(places[turn - 1].xMm - before.xMm, places[turn - 1].yMm - before.yMm) * TICK_HZ) / 3;
    expect(speed).toBeLessThan(15);
    expect(places[turn].xMm).toBeCloseTo(40, 1);
  });
});
