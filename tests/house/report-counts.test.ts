import { describe, expect, test } from 'vitest';
import { closingLine, countPlaywright, countVitest, sumCounts } from '../../electron/bootstrap/report-counts.mjs';

describe('counts of a vitest report', () => {
  const file = (status: string, tests: string[]) => ({ status, assertionResults: tests.map((test) => ({ status: test })) });
  const report = { numPassedTests: 5, numFailedTests: 1, numPendingTests: 2, numTodoTests: 1 };

  test('tests are counted by their result', () => {
    const testResults = [file('passed', ['passed']), file('failed', ['passed', 'failed'])];
    expect(countVitest({ ...report, testResults })).toEqual({ passed: 5, failed: 1, skipped: 3 });
  });
  test('a file that does not load is a failure', () => {
    const testResults = [file('failed', []), file('failed', ['failed'])];
    expect(countVitest({ ...report, testResults })).toEqual({ passed: 5, failed: 2, skipped: 3 });
  });
});

describe('counts of a Playwright report', () => {
  const stats = { expected: 4, unexpected: 1, flaky: 0, skipped: 2 };

  test('tests are counted by their result', () => {
    expect(countPlaywright({ stats, errors: [] })).toEqual({ passed: 4, failed: 1, skipped: 2 });
  });
  test('an error outside every test, and a test that passed only when tried again, are failures', () => {
    expect(countPlaywright({ stats: { ...stats, flaky: 1 }, errors: [{ message: 'x' }] }).failed).toBe(3);
  });
});

test('the closing line is plain and sums everything', () => {
  const counts = sumCounts([
    { passed: 1, failed: 0, skipped: 3 },
    { passed: 41, failed: 2, skipped: 0 },
  ]);
  expect(closingLine(counts)).toBe('Kerfhand: 42 passed, 2 failed, 3 skipped');
});
