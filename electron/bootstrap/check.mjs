// npm test: everything that a build machine checks, in order, then what failed, and one closing line of counts. Runs on Node 24.
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { NODE_SWITCHES } from './node-24.mjs';
import { obtainBrowser } from './obtain-browser.mjs';
import { buildFolder, root } from './root.mjs';
import { runChild } from './run-child.mjs';
import { closingText, readPlaywright, readVitest, sumOutcomes } from './test-reports.mjs';

/** @typedef {import('./test-reports.mjs').Outcome} Outcome */

const reports = join(buildFolder, 'reports');

/**
 * Runs one of our programs, or one from node_modules, from the top folder.
 * @param {string} title
 * @param {string[]} args
 * @param {NodeJS.ProcessEnv} [env]
 */
async function run(title, args, env = {}) {
  const started = Date.now();
  process.stdout.write(`\n--- ${title}\n`);
  const code = await runChild(process.execPath, [...NODE_SWITCHES, ...args], { cwd: root, env: { ...process.env, ...env } });
  process.stdout.write(
    `--- ${title}: ${code === 0 ? 'good' : `code ${code}`}, ${((Date.now() - started) / 1000).toFixed(1)} s\n`,
  );
  if (code > 128) process.exit(code); // Ctrl-C meant all of it
  return code;
}

/** A check without tests of its own counts as one. @param {string} title @param {string[]} args @returns {Promise<Outcome>} */
async function runCheck(title, args) {
  const good = (await run(title, args)) === 0;
  return { passed: good ? 1 : 0, failures: good ? [] : [title], skipped: 0 };
}

/**
 * A test runner, by its report. One that fails without a failed test in its report, or leaves none, is one failure.
 * @param {string} title
 * @param {string} reportPath
 * @param {string[]} args
 * @param {(report: any) => Outcome} read
 * @param {NodeJS.ProcessEnv} [env]
 * @returns {Promise<Outcome>}
 */
async function runTests(title, reportPath, args, read, env) {
  rmSync(reportPath, { force: true });
  const code = await run(title, args, env);
  try {
    const outcome = read(JSON.parse(readFileSync(reportPath, 'utf8')));
    if (code !== 0 && outcome.failures.length === 0) outcome.failures.push(`${title}: ended with ${code}`);
    if (outcome.passed + outcome.failures.length === 0) outcome.failures.push(`${title}: ran no test`);
    return outcome;
  } catch (error) {
    const why = error instanceof Error ? error.message : error;
    return { passed: 0, failures: [`${title}: left no readable report: ${why}`], skipped: 0 };
  }
}

async function check() {
  mkdirSync(reports, { recursive: true });
  process.env.CHROMIUM_PATH = await obtainBrowser((line) => process.stdout.write(`Kerfhand: ${line}.\n`));
  const modules = join(root, 'node_modules');
  const unitReport = join(reports, 'unit.json');
  const roomsReport = join(reports, 'rooms.json');
  const handsReport = join(reports, 'hands.json');
  const playwright = [join(modules, '@playwright', 'test', 'cli.js'), 'test', '--reporter=list,json'];
  const outcomes = [
    await runCheck('types', [join(modules, 'typescript', 'bin', 'tsc'), '--build']),
    await runCheck('lint and format', [join(modules, '@biomejs', 'biome', 'bin', 'biome'), 'check', '--error-on-warnings']),
    await runCheck('build', [join(root, 'electron', 'bootstrap', 'build.mjs')]),
    await runTests(
      'tests',
      unitReport,
      [join(modules, 'vitest', 'vitest.mjs'), 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${unitReport}`],
      readVitest,
    ),
    await runTests(
      'rooms in the browser, two at a time',
      roomsReport,
      [...playwright, '--project=rooms', '--workers=2', `--output=${join(buildFolder, 'end-to-end', 'rooms')}`],
      readPlaywright,
      {
        PLAYWRIGHT_JSON_OUTPUT_NAME: roomsReport,
      },
    ),
    await runTests(
      'hands at real speed in the browser',
      handsReport,
      [...playwright, '--project=hands', `--output=${join(buildFolder, 'end-to-end', 'hands')}`],
      readPlaywright,
      {
        PLAYWRIGHT_JSON_OUTPUT_NAME: handsReport,
      },
    ),
  ];
  return sumOutcomes(outcomes);
}

try {
  const outcome = await check();
  process.stdout.write(`\n${closingText(outcome)}\n`);
  process.exitCode = outcome.failures.length > 0 ? 1 : 0;
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : error}\n`);
  process.exitCode = 1;
}
