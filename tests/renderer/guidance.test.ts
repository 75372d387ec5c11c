import { describe, expect, test } from 'vitest';
import { createGuide, type GuideRules, type GuideView } from '../../renderer/bench/guidance.ts';

const rules: GuideRules = {
  start: 'edge',
  finish: 'run-off',
  bevelDeg: 0,
  travelAngleDeg: null,
  surfaceWork: false,
  openings: false,
  passes: 1,
  startXMm: 0,
  startYMm: 50,
  pathLengthMm: 160,
  standOffLowMm: 0.8,
  standOffHighMm: 3,
  leanDeg: 8,
  offLineMm: 1,
  speedLowMmPerS: 6,
  speedHighMmPerS: 11,
};

const ready: GuideView = {
  xMm: 0,
  yMm: 50,
  heightMm: 1.5,
  leanDeg: 1,
  offLeanDeg: 1,
  trigger: false,
  arc: 'off',
  penetration: 0,
  underMm3PerS: 0,
  topMm3PerS: 0,
  speedMmPerS: 0,
  alongMm: 0,
  offLineMm: 0,
};
const arcOn = { trigger: true, arc: 'transferred', topMm3PerS: 5 } as const;
const open = { ...arcOn, penetration: 1, underMm3PerS: 80, topMm3PerS: 0 } as const;

/** A guide that is told each view for two seconds, so that the holding time of a sentence has passed. */
function guide(overrides: Partial<GuideRules> = {}) {
  const made = createGuide({ ...rules, ...overrides });
  let now = 0;
  return {
    made,
    tell(view: Partial<GuideView>, seconds = 2) {
      for (let t = 0; t < seconds; t += 0.1) {
        now += 100;
        made.update({ ...ready, ...view }, now);
      }
      return made.step;
    },
  };
}

describe('before the arc', () => {
  test.each([
    [{ xMm: -20 }, 'approach'],
    [{ heightMm: 8 }, 'lower'],
    [{ heightMm: 0.2 }, 'raise'],
    [{ leanDeg: 20, offLeanDeg: 20 }, 'upright'],
    [{}, 'strike'],
    [{ trigger: true, arc: 'pre-flow' as const }, 'pilot'],
    [{ trigger: true, arc: 'pilot' as const }, 'no-metal'],
    [{ trigger: true, arc: 'off' as const }, 'pull-again'],
  ])('%o asks for %s', (view, step) => {
    expect(guide().tell(view)).toBe(step);
  });

  test('a pilot that has only just begun is waited for', () => {
    expect(guide().tell({ trigger: true, arc: 'pilot' }, 0.5)).toBe('pilot');
  });
});

describe('with the arc on', () => {
  test('wait until through, then move, then finish, then let go, then done', () => {
    const { tell, made } = guide();
    expect(tell(arcOn)).toBe('wait-through');
    expect(tell({ ...open })).toBe('move');
    expect(tell({ ...open, speedMmPerS: 8, alongMm: 80 })).toBe('move');
    expect(made.progress).toBeCloseTo(0.5, 9);
    expect(tell({ ...open, speedMmPerS: 8, alongMm: 150 })).toBe('finish');
    expect(tell({ ...open, speedMmPerS: 8, alongMm: 160 })).toBe('release');
    expect(made.finished).toBe(false);
    expect(tell({ alongMm: 160 })).toBe('done');
    expect(made.finished).toBe(true);
  });

  test.each([
    [{ speedMmPerS: 14, alongMm: 50 }, 'slower'],
    [{ speedMmPerS: 3, alongMm: 50 }, 'faster'],
    [{ speedMmPerS: 8, alongMm: 50, offLineMm: 2 }, 'on-line'],
    [{ speedMmPerS: 8, alongMm: 50, heightMm: 5 }, 'lower-cutting'],
    [{ speedMmPerS: 8, alongMm: 50, heightMm: 0.2 }, 'raise-cutting'],
    [{ speedMmPerS: 20, alongMm: 50, penetration: 0.5, underMm3PerS: 0, topMm3PerS: 60 }, 'cut-lost'],
  ])('%o asks for %s', (view, step) => {
    const { tell } = guide();
    tell(open);
    expect(tell({ ...open, ...view })).toBe(step);
  });

  test('a twitch of the hand changes no advice', () => {
    const { tell } = guide();
    tell(open);
    tell({ ...open, speedMmPerS: 8, alongMm: 40 });
    expect(tell({ ...open, speedMmPerS: 16, alongMm: 41 }, 0.1)).toBe('move');
  });

  test('without a window nothing is said of speed', () => {
    const { tell } = guide({ speedLowMmPerS: null, speedHighMmPerS: null });
    tell(open);
    expect(tell({ ...open, speedMmPerS: 60, alongMm: 50 })).toBe('move');
  });

  test('an arc that goes out on the way is sent back to where the cut stops', () => {
    const { tell, made } = guide();
    tell(open);
    tell({ ...open, speedMmPerS: 8, alongMm: 60 });
    expect(tell({ alongMm: 60, xMm: 60 })).toBe('arc-out');
    expect(made.finished).toBe(false);
  });

  test('on a slow display the end is not missed when the arc goes out over the edge between two looks', () => {
    const { tell, made } = guide();
    tell(open);
    tell({ ...open, speedMmPerS: 10, alongMm: 155 }, 0.4);
    expect(tell({ trigger: true, arc: 'pilot', alongMm: 160, xMm: 161 }, 0.1)).toBe('release');
    expect(tell({ alongMm: 160, xMm: 161 }, 0.1)).toBe('done');
    expect(made.finished).toBe(true);
  });

  test('running over the end without having been through is not a finish', () => {
    const { tell, made } = guide();
    tell(arcOn);
    tell({ ...arcOn, alongMm: 160 });
    tell({ alongMm: 160 });
    expect(made.finished).toBe(false);
  });
});

describe('other starts', () => {
  test('a rolling pierce: lean over, come near, pull, roll upright, then move once it is through', () => {
    const { tell } = guide({ start: 'rolling-pierce' });
    expect(tell({})).toBe('lean-over');
    const leaning = { leanDeg: 45, offLeanDeg: 45 };
    expect(tell({ leanDeg: 60, offLeanDeg: 60 })).toBe('lean-less');
    expect(tell({ ...leaning, heightMm: 8 })).toBe('lower-pierce');
    expect(tell({ ...leaning, heightMm: 0.5 })).toBe('raise-pierce');
    expect(tell({ ...leaning, heightMm: 3 })).toBe('strike');
    expect(tell({ ...arcOn, ...leaning, heightMm: 3 })).toBe('roll');
    expect(tell({ ...arcOn, heightMm: 3 })).toBe('wait-through');
    expect(tell({ ...open, heightMm: 2 })).toBe('move');
  });

  test('a rolling pierce that is through before it is upright is rolled on', () => {
    const { tell } = guide({ start: 'rolling-pierce' });
    expect(tell({ ...open, leanDeg: 20, offLeanDeg: 20, heightMm: 3 })).toBe('roll');
    expect(tell({ ...open, heightMm: 2 })).toBe('move');
  });

  test('a stand-off pierce is struck high and comes down once it is through', () => {
    const { tell } = guide({ start: 'stand-off-pierce' });
    expect(tell({})).toBe('raise-pierce');
    expect(tell({ heightMm: 12 })).toBe('strike');
    expect(tell({ ...arcOn, heightMm: 12 })).toBe('wait-through');
    expect(tell({ ...open, heightMm: 12 })).toBe('come-down');
    expect(tell({ ...open, heightMm: 1.5 })).toBe('move');
    expect(tell({ ...open, heightMm: 6, alongMm: 20 })).toBe('lower-cutting');
  });

  test('a pierced hole that throws nothing more is through all the same; an edge with nothing thrown may only not be warm yet', () => {
    const quiet = { ...arcOn, penetration: 1, topMm3PerS: 0 };
    expect(guide({ start: 'contact-pierce' }).tell({ ...quiet, heightMm: 1.5 })).toBe('move');
    expect(guide().tell(quiet)).toBe('wait-through');
  });

  test('an arc that stands beside an edge and has melted all it reaches is not waited for without end', () => {
    const { tell } = guide();
    tell(arcOn, 1);
    expect(tell({ ...arcOn, penetration: 1, topMm3PerS: 0 }, 2.4)).toBe('wait-through');
    expect(tell({ ...arcOn, penetration: 1, topMm3PerS: 0 }, 0.4)).toBe('move');
  });

  test('a contact pierce touches the plate, upright', () => {
    const { tell } = guide({ start: 'contact-pierce' });
    expect(tell({ heightMm: 3 })).toBe('touch');
    expect(tell({ heightMm: 0, leanDeg: 20, offLeanDeg: 20 })).toBe('upright');
    expect(tell({ heightMm: 0 })).toBe('strike');
  });

  test('an arc that gave up in the blind hole is begun again as a pierce', () => {
    const { tell } = guide({ start: 'rolling-pierce' });
    tell({ ...arcOn, leanDeg: 45, offLeanDeg: 45, heightMm: 3 });
    expect(tell({ leanDeg: 10, offLeanDeg: 10, heightMm: 3 })).toBe('lean-over');
  });
});

describe('other ways to cut', () => {
  test('a bevel asks for its own lean before the arc and on the way', () => {
    const { tell } = guide({ bevelDeg: 30 });
    expect(tell({ leanDeg: 0, offLeanDeg: 30 })).toBe('set-bevel');
    expect(tell({ leanDeg: 30, offLeanDeg: 1 })).toBe('strike');
    tell({ ...open, leanDeg: 30, offLeanDeg: 1 });
    expect(tell({ ...open, leanDeg: 10, offLeanDeg: 20, speedMmPerS: 8, alongMm: 50 })).toBe('set-bevel');
  });

  test('a groove is pushed along at once, never waits to be through, and goes round for its second pass', () => {
    const { tell, made } = guide({ surfaceWork: true, travelAngleDeg: { low: -50, high: -30 }, passes: 2, leanDeg: 10 });
    expect(tell({ leanDeg: 0, offLeanDeg: 40 })).toBe('push-lean');
    const held = { leanDeg: 40, offLeanDeg: 1 };
    expect(tell({ ...held })).toBe('strike');
    expect(tell({ ...arcOn, ...held, topMm3PerS: 60 })).toBe('move');
    expect(tell({ ...arcOn, ...held, topMm3PerS: 60, alongMm: 155, speedMmPerS: 8 })).toBe('move');
    expect(tell({ ...arcOn, ...held, alongMm: 160, speedMmPerS: 8 })).toBe('release');
    expect(tell({ ...held, xMm: 160, alongMm: 160 }, 0.2)).toBe('next-pass');
    expect(made.progress).toBeCloseTo(0.5, 9);
    expect(tell({ ...held, xMm: 90, alongMm: 90 })).toBe('next-pass');
    expect(tell({ ...held })).toBe('strike');
    tell({ ...arcOn, ...held });
    tell({ ...arcOn, ...held, alongMm: 160, speedMmPerS: 8 });
    expect(tell({ ...held, xMm: 160, alongMm: 160 })).toBe('done');
    expect(made.finished).toBe(true);
  });

  test('a closed outline is brought back to where it began', () => {
    const { tell } = guide({ finish: 'close' });
    tell(open);
    expect(tell({ ...open, speedMmPerS: 8, alongMm: 150 })).toBe('close');
    expect(tell({ ...open, speedMmPerS: 8, alongMm: 160 })).toBe('release');
  });

  test('over an opening the hand keeps moving while the pilot burns', () => {
    const { tell } = guide({ openings: true });
    tell(open);
    tell({ ...open, speedMmPerS: 8, alongMm: 40 });
    expect(tell({ trigger: true, arc: 'pilot', alongMm: 44, speedMmPerS: 8 })).toBe('cross-gap');
    expect(tell({ trigger: true, arc: 'off', alongMm: 44 })).toBe('pull-again');
  });
});
