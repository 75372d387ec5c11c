// npm start: from a checkout in any state to an open app.
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { ensureInstalled } from './install.mjs';
import { findNode24, isNode24, NODE_SWITCHES } from './node-24.mjs';
import { root } from './root.mjs';
import { runChild } from './run-child.mjs';

/** Electron that ends with an error sooner than this could not start, for want of a system library for example. */
const FAILED_START_MS = 5000;
const USAGE = 'npm start -- [--loopback] [--no-open] [--electron]';

/** @param {string} line */
const say = (line) => process.stdout.write(`Kerfhand: ${line}\n`);

function readFlags() {
  const options = /** @type {const} */ ({
    loopback: { type: 'boolean', default: false }, // never Electron
    'no-open': { type: 'boolean', default: false }, // print the address instead of opening a window
    electron: { type: 'boolean', default: false }, // try again to fetch it after a fetch that failed
  });
  return parseArgs({ options, strict: true }).values;
}

/** @param {{loopback: boolean, 'no-open': boolean, electron: boolean}} flags */
async function open(flags) {
  const { buildStale } = await import('./build.mjs');
  await buildStale((line) => say(`${line}.`));
  const { hasDisplay, openOverLoopback } = await import('./loopback-window.mjs');
  /** @param {string} why */
  const overLoopback = (why) => openOverLoopback({ open: !flags['no-open'], why, say });

  if (flags.loopback || flags['no-open']) return overLoopback('the loopback host was asked for');
  if (!hasDisplay()) return overLoopback('there is no display here');
  if (process.platform === 'linux' && process.getuid?.() === 0)
    return overLoopback('it does not run as root with its sandbox on');
  const { obtainElectron } = await import('./electron-binary.mjs');
  const electron = await obtainElectron({ retry: flags.electron, say: (line) => say(`${line}.`) });
  if ('reason' in electron) return overLoopback(electron.reason);
  say(`open in Electron (${electron.binary}).`);
  const opened = Date.now();
  const code = await runChild(electron.binary, [root]);
  const failedAtOnce = code > 0 && code < 128 && Date.now() - opened < FAILED_START_MS;
  return failedAtOnce ? overLoopback(`it ended at once with code ${code}`) : code;
}

async function start() {
  let flags;
  try {
    flags = readFlags();
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : error}\nUsage: ${USAGE}\n`);
    return 2;
  }
  await ensureInstalled();
  if (isNode24()) return open(flags);
  return runChild(findNode24(), [...NODE_SWITCHES, fileURLToPath(import.meta.url), ...process.argv.slice(2)]);
}

try {
  process.exitCode = await start();
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : error}\n`);
  process.exitCode = 1;
}
