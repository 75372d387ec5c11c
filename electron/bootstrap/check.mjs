// npm run check: everything that a build machine checks, in order, and one closing line of counts. Runs on Node 24.
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { NODE_SWITCHES } from './node-24.mjs';
import { obtainBrowser } from './obtain-browser.mjs';
import { closingLine, countPlaywright, countVitest, sumCounts } from './report-counts.mjs';
import { buildFolder, root } from './root.mjs';
import { runChild } from './run-child.mjs';

/** @typedef {import('./report-counts.mjs').Counts} Counts */

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

/** A check without tests of its own counts as one. @param {string} title @param {string[]} args @returns {Promise<Counts>} */
async function runCheck(title, args) {
  const good = (await run(title, args)) === 0;
  return { passed: good ? 1 : 0, failed: good ? 0 : 1, skipped: 0 };
}

/**
 * A test runner, counted from its report. One that fails without a failed test in its report, or leaves none, is one failure.
 * @param {string} title
 * @param {string} reportPath
 * @param {string[]} args
 * @param {(report: any) => Counts} count
 * @param {NodeJS.ProcessEnv} [env]
 */
async function runTests(title, reportPath, args, count, env) {
  rmSync(reportPath, { force: true });
  const code = await run(title, args, env);
  let counts = { passed: 0, failed: 0, skipped: 0 };
  try {
    counts = count(JSON.parse(readFileSync(reportPath, 'utf8')));
  } catch (error) {
    process.stdout.write(`${title} left no readable report: ${error instanceof Error ? error.message : error}\n`);
    counts.failed += 1;
  }
  if (code !== 0 && counts.failed === 0) counts.failed = 1;
  if (counts.passed === 0 && counts.failed === 0) {
    process.stdout.write(`${title} ran no test.\n`);
    counts.failed = 1;
  }
  return counts;
}

async function check() {
  mkdirSync(reports, { recursive: true });
  process.env.CHROMIUM_PATH = await obtainBrowser((line) => process.stdout.write(`Kerfhand: ${line}.\n`));
  const modules = join(root, 'node_modules');
  const unitReport = join(reports, 'unit.json');
  const roomsReport = join(reports, 'rooms.json');
  const handsReport = join(reports, 'hands.json');
  const playwright = [join(modules, '@playwright', 'test', 'cli.js'), 'test', '--reporter=list,json'];
  const counts = [
    await runCheck('types', [join(modules, 'typescript', 'bin', 'tsc'), '--build']),
    await runCheck('lint and format', [join(modules, '@biomejs', 'biome', 'bin', 'biome'), 'check', '--error-on-warnings']),
    await runCheck('build', [join(root, 'electron', 'bootstrap', 'build.mjs')]),
    await runTests(
      'tests',
      unitReport,
      [join(modules, 'vitest', 'vitest.mjs'), 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${unitReport}`],
      countVitest,
    ),
    await runTests(
      'rooms in the browser, two at a time',
      roomsReport,
      [...playwright, '--project=rooms', '--workers=2', `--output=${join(buildFolder, 'end-to-end', 'rooms')}`],
      countPlaywright,
      {
        PLAYWRIGHT_JSON_OUTPUT_NAME: roomsReport,
      },
    ),
    await runTests(
      'hands at real speed in the browser',
      handsReport,
      [...playwright, '--project=hands', `--output=${join(buildFolder, 'end-to-end', 'hands')}`],
      countPlaywright,
      {
        PLAYWRIGHT_JSON_OUTPUT_NAME: handsReport,
      },
    ),
  ];
  return sumCounts(counts);
}

try {
  const counts = await check();
  process.stdout.write(`\n${closingLine(counts)}\n`);
  process.exitCode = counts.failed > 0 ? 1 : 0;
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : error}\n`);
  process.exitCode = 1;
}
