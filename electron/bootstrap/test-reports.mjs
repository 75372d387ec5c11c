import { relative } from 'node:path';
import { stripVTControlCharacters } from 'node:util';
import { root } from './root.mjs';

/**
 * What came of some tests; a failure is a text: which test, and below it why.
 * @typedef {{passed: number, failures: string[], skipped: number}} Outcome
 */

/** Of a long message, what stands first: what was expected, what came instead, and where. */
const MESSAGE_LINES = 12;

/** @param {string} name @param {string[]} messages */
function failure(name, messages) {
  const lines = messages.flatMap((message) => stripVTControlCharacters(message).split('\n').slice(0, MESSAGE_LINES));
  return [name, ...lines.filter((line) => line.trim() !== '').map((line) => `    ${line}`)].join('\n');
}

/**
 * From a vitest JSON report. A file that could not even be loaded has no tests in it and is one failure.
 * @param {any} report
 * @returns {Outcome}
 */
export function readVitest(report) {
  /** @param {any} file */
  const failuresIn = (file) => {
    const place = relative(root, file.name);
    const failed = file.assertionResults.filter(/** @param {any} test */ (test) => test.status === 'failed');
    if (file.status === 'failed' && failed.length === 0) return [failure(place, [file.message])];
    return failed.map(/** @param {any} test */ (test) => failure(`${place}: ${test.fullName}`, test.failureMessages));
  };
  return {
    passed: report.numPassedTests,
    failures: report.testResults.flatMap(failuresIn),
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

/**
 * From a Playwright JSON report. Errors outside any test (a file that does not load) are failures; so is a test that passed only
 * when it was tried again.
 * @param {any} report
 * @returns {Outcome}
 */
export function readPlaywright(report) {
  /** @param {any[]} errors @returns {string[]} */
  const messages = (errors) => errors.map((error) => error.message ?? String(error.value));
  /** @param {any} test @param {string} name */
  const failuresOf = (test, name) =>
    test.status === 'unexpected' || test.status === 'flaky'
      ? [
          failure(
            name,
            test.results.flatMap(/** @param {any} result */ (result) => messages(result.errors)),
          ),
        ]
      : [];
  /** @param {any} suite @returns {string[]} */
  const failuresIn = ({ specs, suites = [] }) => [
    ...specs.flatMap(
      /** @param {any} spec */
      ({ file, title, tests }) => tests.flatMap(/** @param {any} test */ (test) => failuresOf(test, `${file}: ${title}`)),
    ),
    ...suites.flatMap(failuresIn),
  ];
  return {
    passed: report.stats.expected,
    failures: [
      ...report.suites.flatMap(failuresIn),
      ...messages(report.errors).map((message) => failure('outside every test', [message])),
    ],
    skipped: report.stats.skipped,
  };
}

/** @param {Outcome[]} parts @returns {Outcome} */
export function sumOutcomes(parts) {
  return {
    passed: parts.reduce((sum, { passed }) => sum + passed, 0),
    failures: parts.flatMap(({ failures }) => failures),
    skipped: parts.reduce((sum, { skipped }) => sum + skipped, 0),
  };
}

/** How `npm test` ends: what failed, for who sees no more than the end, and one line of counts. @param {Outcome} outcome */
export function closingText({ passed, failures, skipped }) {
  return [...failures, `Kerfhand: ${passed} passed, ${failures.length} failed, ${skipped} skipped`].join('\n\n');
}
