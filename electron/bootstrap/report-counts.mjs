/** @typedef {{passed: number, failed: number, skipped: number}} Counts */

/**
 * Counts of a vitest JSON report. A file that could not even be loaded has no tests in it and counts as one failure.
 * @param {any} report
 * @returns {Counts}
 */
export function countVitest(report) {
  const broken = report.testResults.filter(
    /** @param {any} file */
    (file) =>
      file.status === 'failed' && !file.assertionResults.some(/** @param {any} test */ (test) => test.status === 'failed'),
  );
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + broken.length,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

/**
 * Counts of a Playwright JSON report. Errors outside any test (a file that does not load) count as failures; so does a test that
 * passed only when it was tried again.
 * @param {any} report
 * @returns {Counts}
 */
export function countPlaywright(report) {
  const { expected, unexpected, flaky, skipped } = report.stats;
  return { passed: expected, failed: unexpected + flaky + report.errors.length, skipped };
}

/** @param {Counts[]} parts @returns {Counts} */
export function sumCounts(parts) {
  const sum = { passed: 0, failed: 0, skipped: 0 };
  for (const part of parts) {
    sum.passed += part.passed;
    sum.failed += part.failed;
    sum.skipped += part.skipped;
  }
  return sum;
}

/** The closing line of `npm test`, alone on its line. @param {Counts} counts */
export function closingLine({ passed, failed, skipped }) {
  return `Kerfhand: ${passed} passed, ${failed} failed, ${skipped} skipped`;
}
