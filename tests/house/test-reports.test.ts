import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from '../../electron/bootstrap/root.mjs';
import { closingText, readPlaywright, readVitest, sumOutcomes } from '../../electron/bootstrap/test-reports.mjs';

describe('a vitest report', () => {
  const file = (name: string, status: string, tests: object[], message = '') => ({
    name: path.join(root, 'tests', name),
    status,
    message,
    assertionResults: tests,
  });
  const good = { status: 'passed', fullName: 'good', failureMessages: [] };
  const bad = {
    status: 'failed',
    fullName: 'plate is cut',
    failureMessages: ['\u001b[31mexpected 1\u001b[39m to be 2\n\n    at here'],
  };
  const report = { numPassedTests: 5, numFailedTests: 1, numPendingTests: 2, numTodoTests: 1 };

  test('tests are counted by their result, and the failed ones told with their reason', () => {
    const testResults = [file('a.test.ts', 'passed', [good]), file('b.test.ts', 'failed', [good, bad])];
    expect(readVitest({ ...report, testResults })).toEqual({
      passed: 5,
      failures: [`${path.join('tests', 'b.test.ts')}: plate is cut\n    expected 1 to be 2\n        at here`],
      skipped: 3,
    });
  });
  test('a file that does not load is a failure', () => {
    const testResults = [file('a.test.ts', 'failed', [], 'No such module.'), file('b.test.ts', 'failed', [bad])];
    expect(readVitest({ ...report, testResults }).failures).toEqual([
      `${path.join('tests', 'a.test.ts')}\n    No such module.`,
      expect.stringContaining('plate is cut'),
    ]);
  });
  test('of a long message the first lines are told', () => {
    const long = { ...bad, failureMessages: [Array.from({ length: 50 }, (_, n) => `line ${n}`).join('\n')] };
    const [told] = readVitest({ ...report, testResults: [file('a.test.ts', 'failed', [long])] }).failures;
    expect(told?.split('\n').at(-1)).toBe('    line 11');
  });
});

describe('a Playwright report', () => {
  const stats = { expected: 4, unexpected: 1, flaky: 0, skipped: 2 };
  const spec = (title: string, status: string, ...said: string[]) => ({
    file: 'rooms.test.ts',
    title,
    tests: [{ status, results: [{ errors: said.map((message) => ({ message })) }] }],
  });

  test('tests are counted by their result, and the failed ones told with their reason, wherever they are described', () => {
    const inner = { specs: [spec('a door', 'unexpected', 'It is shut.')] };
    const suites = [{ specs: [spec('a wall', 'expected')], suites: [inner] }];
    expect(readPlaywright({ stats, suites, errors: [] })).toEqual({
      passed: 4,
      failures: ['rooms.test.ts: a door\n    It is shut.'],
      skipped: 2,
    });
  });
  test('an error outside every test, and a test that passed only when tried again, are failures', () => {
    const suites = [{ specs: [spec('a door', 'flaky', 'It stuck.')] }];
    expect(readPlaywright({ stats, suites, errors: [{ message: 'x' }] }).failures).toEqual([
      'rooms.test.ts: a door\n    It stuck.',
      'outside every test\n    x',
    ]);
  });
});

test('the end tells every failure, then sums everything in one plain line', () => {
  const outcome = sumOutcomes([
    { passed: 1, failures: [], skipped: 3 },
    { passed: 41, failures: ['a\n    x', 'b'], skipped: 0 },
  ]);
  expect(closingText(outcome)).toBe('a\n    x\n\nb\n\nKerfhand: 42 passed, 2 failed, 3 skipped');
  expect(closingText({ passed: 42, failures: [], skipped: 0 })).toBe('Kerfhand: 42 passed, 0 failed, 0 skipped');
});
