import { expect, test } from 'vitest';
import type { DrillSummary } from '../../electron/contract.ts';
import { type Due, nextPractice, type Progress, REST_DAYS } from '../../renderer/register/next-practice.ts';

const NOW = Date.parse('2026-03-20T08:00:00Z');
const HASH = { a: 'a'.repeat(64), b: 'b'.repeat(64), c: 'c'.repeat(64) };

const drill = (id: string, technique: string): DrillSummary => ({
  id,
  hash: HASH.a,
  source: 'shipped',
  draft: false,
  title: `Drill ${id}`,
  technique,
  material: 'mild-steel',
  thicknessMm: 6,
});
const DRILLS = [drill('edge', 'edge-start'), drill('hole', 'pierce'), drill('groove', 'gouge')];

const run = (drillId: string, daysAgo: number, score: number, passed: boolean) => ({
  runId: '00000000-0000-0000-0000-000000000000',
  drillId,
  at: new Date(NOW - daysAgo * 86_400_000).toISOString(),
  score,
  passed,
});
const progress = (...techniques: Progress['techniques']): Progress => ({ techniques, measures: [] });

const due = (title: string, dueAt: string | null, next: string | null): Due => ({
  assignmentId: '11111111-1111-1111-1111-111111111111',
  title,
  dueAt,
  cueLevel: null,
  order: 'mixed',
  drills: (['a', 'b'] as const).map((key) => ({
    drillId: key,
    drillHash: HASH[key],
    title: `${title} ${key}`,
    technique: 'edge-start',
    used: 1,
    left: 2,
    bestScore: 50,
    passed: false,
    submittedRunId: null,
    decision: null,
    lastAt: null,
  })),
  nextDrillHash: next,
});
const next = (dues: Due[], soFar: Progress, drills = DRILLS) => nextPractice({ due: dues, progress: soFar, drills, nowMs: NOW });

test('what was asked for comes first, the drill that the host names, and not what is done already', () => {
  const found = next(
    [due('Done', '2026-03-21T00:00:00Z', null), due('Open', '2026-03-25T00:00:00Z', HASH.b)],
    progress({ technique: 'pierce', runs: [run('hole', 1, 70, false)] }),
  );
  expect(found).toMatchObject({ title: 'Open b', drillId: 'b', left: 2, reason: { kind: 'due', overdue: false } });
});

test('a date that has gone by is told as such; one without a date never is', () => {
  expect(next([due('Late', '2026-03-19T00:00:00Z', HASH.a)], progress())?.reason).toMatchObject({ overdue: true });
  expect(next([due('Any day', null, HASH.a)], progress())?.reason).toMatchObject({ overdue: false, dueAt: null });
});

test('what was asked for and is passed is asked for no more, though the host goes on naming it', () => {
  const passed = due('Old', '2026-03-01T00:00:00.000Z', HASH.a);
  const all = { ...passed, drills: passed.drills.map((one) => ({ ...one, passed: true })) };
  expect(next([all, due('New', null, HASH.b)], progress())?.title).toBe('New b');
  expect(next([all], progress())?.reason.kind).not.toBe('due');
});

test('with nothing asked for: the drill nearest to a pass, by its best score', () => {
  const soFar = progress(
    { technique: 'edge-start', runs: [run('edge', 40, 90, true)] },
    { technique: 'pierce', runs: [run('hole', 3, 66, false), run('hole', 2, 48, false)] },
    { technique: 'gouge', runs: [run('groove', 1, 40, false)] },
  );
  expect(next([], soFar)).toMatchObject({ drillId: 'hole', assignmentId: null, reason: { kind: 'close', tries: 2, score: 66 } });
});

test('with all passed: what has rested the longest, once it has rested long enough; else a technique not tried yet', () => {
  const edge = (daysAgo: number) => progress({ technique: 'edge-start', runs: [run('edge', daysAgo, 90, true)] });
  expect(next([], edge(REST_DAYS))).toMatchObject({ drillId: 'edge', reason: { kind: 'rest', days: REST_DAYS } });
  expect(next([], edge(REST_DAYS - 1))).toMatchObject({ drillId: 'hole', reason: { kind: 'new', technique: 'pierce' } });
});

test('an assessment is never proposed for practice, and with nothing left there is no proposal', () => {
  expect(next([], progress(), [drill('exam', 'assessment')])).toBeNull();
  expect(next([], progress({ technique: 'pierce', runs: [run('hole', 0, 90, true)] }), [drill('hole', 'pierce')])).toBeNull();
});
