import { describe, expect, test } from 'vitest';
import { triedWords } from '../../renderer/drills/tried-words.ts';
import { dayText, momentText, weekText } from '../../renderer/register/dates.ts';
import { dueStanding } from '../../renderer/register/due-standing.ts';
import { lateMean } from '../../renderer/register/late-mean.ts';
import type { Due, DueDrill } from '../../renderer/register/next-practice.ts';
import { firstRoom, roomOf } from '../../renderer/register/yard-rooms.ts';
import { keepTogether } from '../../renderer/text/keep-together.ts';
import { biasWords, coefficientWords, pointsWords } from '../../renderer/verdict/moderation-figures.ts';

const drill = (part: Partial<DueDrill>): DueDrill => ({
  drillId: 'edge',
  drillHash: 'a'.repeat(64),
  title: 'Edge',
  technique: 'edge-start',
  used: 1,
  left: 2,
  bestScore: 50,
  passed: false,
  submittedRunId: null,
  decision: null,
  lastAt: null,
  ...part,
});
const sheet = (...drills: DueDrill[]): Due => ({
  assignmentId: '11111111-1111-1111-1111-111111111111',
  title: 'Sheet',
  dueAt: '2025-10-03T21:59:59Z',
  cueLevel: null,
  order: 'mixed',
  drills,
  nextDrillHash: null,
});
const RUN = '22222222-2222-2222-2222-222222222222';

test('a sheet of what is due is open only while something of it can still be cut', () => {
  expect(dueStanding(sheet(drill({ passed: true }), drill({})))).toBe('open');
  expect(dueStanding(sheet(drill({ passed: true }), drill({ passed: true })))).toBe('done');
  expect(dueStanding(sheet(drill({ passed: true }), drill({ left: 0 })))).toBe('closed');
  expect(dueStanding(sheet(drill({ passed: null, submittedRunId: RUN })))).toBe('waits');
  expect(dueStanding(sheet(drill({ passed: true, submittedRunId: RUN })))).toBe('waits');
  expect(dueStanding(sheet(drill({ submittedRunId: RUN, decision: 'not-yet-competent' })))).toBe('open');
  expect(dueStanding(sheet(drill({ submittedRunId: RUN, decision: 'not-yet-competent', left: 0 })))).toBe('closed');
});

test('the figure of a practice curve is the mean of ten runs at least, in whole weeks', () => {
  const weeks = [
    { runs: 30, meanScore: 20 },
    { runs: 9, meanScore: 60 },
    { runs: 1, meanScore: 100 },
  ];
  expect(lateMean(weeks)).toEqual({ runs: 10, score: 64 });
  expect(lateMean(weeks.slice(2))).toEqual({ runs: 1, score: 100 });
  expect(lateMean([])).toBeNull();
});

describe('dates', () => {
  const now = new Date();
  const thisYear = new Date(now.getFullYear(), 5, 15, 12, 5).toISOString();

  test('the year stands where it is another one, and only there', () => {
    expect(momentText('2019-06-15T12:00:00')).toBe('Jun 15, 2019, 12:00');
    expect(dayText('2019-06-15T12:00:00')).toBe('Sat, Jun 15, 2019');
    expect(weekText(Date.UTC(2019, 5, 17) / 1000)).toBe('Jun 17, 2019');
    expect(momentText(thisYear)).toBe('Jun 15, 12:05');
    expect(dayText(thisYear)).not.toContain(String(now.getFullYear()));
  });

  test('midnight is 00, not 24', () => {
    expect(momentText('2019-06-15T00:05:00')).toBe('Jun 15, 2019, 00:05');
  });
});

test('no line ends between a figure and its unit, nor inside a range', () => {
  expect(keepTogether('Washer, rolling pierce, 12 mm')).toBe('Washer, rolling pierce, 12\u00a0mm');
  expect(keepTogether('30 degree bevel, 8 mm')).toBe('30\u00a0degree bevel, 8\u00a0mm');
  expect(keepTogether('Between 11–23 mm/s.')).toBe('Between 11–\u206023\u00a0mm/\u2060s.');
  expect(keepTogether('95 % of 10 runs')).toBe('95\u00a0% of 10 runs');
  expect(keepTogether('4 metals, 2 seams')).toBe('4 metals, 2 seams');
});

test('once, twice, three times', () => {
  expect([1, 2, 3].map(triedWords)).toEqual(['tried once', 'tried twice', 'tried 3 times']);
});

test('who gave more marks is told without a minus, and agreement is never rounded up to full', () => {
  expect(biasWords(1.84, 'A', 'B')).toBe('On average A gave 1.8 marks more than B.');
  expect(biasWords(-0.1, 'A', 'B')).toBe('On average A gave 0.1 marks fewer than B.');
  expect(biasWords(-0.02, 'A', 'B')).toBe('On average A and B gave the same marks.');
  expect(pointsWords(-0.02)).toBe('0.0');
  expect(pointsWords(-3.4)).toBe('−3.4');
  expect(coefficientWords(0.998)).toBe('0.99');
  expect(coefficientWords(1)).toBe('1.00');
});

test('everybody comes first to what they come for, and a page behind a room belongs to it', () => {
  expect(firstRoom('instructor')).toEqual({ at: 'class' });
  expect(firstRoom('assessor')).toEqual({ at: 'queue' });
  expect(firstRoom('apprentice')).toEqual({ at: 'home' });
  expect(roomOf({ at: 'assign' })).toBe('assignments');
  expect(roomOf({ at: 'moderation', setId: RUN })).toBe('moderation');
});
