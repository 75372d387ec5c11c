import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { buildFolder, root } from './root.mjs';
import { untilExit } from './run-child.mjs';

const packageFolder = join(root, 'node_modules', 'electron');
const failurePath = join(buildFolder, 'electron-fetch-failed.json');
/** Nobody waits longer than this unasked; who asks for Electron by --electron has a slow line perhaps. */
const FETCH_LIMIT_S = 60;
const ASKED_FETCH_LIMIT_S = 600;

/** Path of Electron's binary where it is in place, else null. The package is never loaded for this: loading it starts a download. */
export function findElectron() {
  const pathFile = join(packageFolder, 'path.txt');
  if (!existsSync(pathFile)) return null;
  const binary = join(packageFolder, 'dist', readFileSync(pathFile, 'utf8').trim());
  return existsSync(binary) ? binary : null;
}

/** @returns {{reason: string} | null} why the last fetch failed, where it did and this version was not fetched since */
function lastFailure() {
  try {
    const failure = JSON.parse(readFileSync(failurePath, 'utf8'));
    return failure.version === electronVersion() ? { reason: String(failure.reason) } : null;
  } catch {
    return null;
  }
}

function electronVersion() {
  return JSON.parse(readFileSync(join(packageFolder, 'package.json'), 'utf8')).version;
}

/** @param {string} reason */
function rememberFailure(reason) {
  mkdirSync(dirname(failurePath), { recursive: true });
  writeFileSync(failurePath, JSON.stringify({ version: electronVersion(), reason }));
}

/**
 * Runs the package's own fetch, says every few seconds that it goes on, and ends it at the limit.
 * @param {number} limitS
 * @param {(line: string) => void} say
 * @returns {Promise<string | null>} null when it is done, else why not
 */
async function runFetch(limitS, say) {
  const fetching = spawn(process.execPath, ['install.js'], { cwd: packageFolder, stdio: ['ignore', 'ignore', 'pipe'] });
  const started = Date.now();
  let complaint = '';
  fetching.stderr.setEncoding('utf8').on('data', (text) => {
    complaint += text;
  });
  let timedOut = false;
  const ticker = setInterval(() => {
    const seconds = Math.round((Date.now() - started) / 1000);
    if (seconds < limitS) return say(`fetching Electron, ${seconds} s of at most ${limitS} s`);
    timedOut = true;
    fetching.kill('SIGKILL');
  }, 5000);
  const code = await untilExit(fetching).finally(() => clearInterval(ticker));
  if (timedOut) return `it was not there after ${limitS} s`;
  if (code > 128) process.exit(code); // Ctrl-C meant everything, not only the fetch
  return code === 0 ? null : firstLine(complaint) || `its installer ended with code ${code}`;
}

/** @param {string} text */
function firstLine(text) {
  const line = text.split('\n').find((candidate) => candidate.trim()) ?? '';
  return line
    .trim()
    .replace(/^\w*Error: /, '')
    .slice(0, 200);
}

/**
 * Electron's binary, fetched where it is missing. After a failed fetch it is not tried again until `retry` asks for it, so that
 * a machine without a way to it starts at once.
 * @param {{retry: boolean, say: (line: string) => void}} options
 * @returns {Promise<{binary: string} | {reason: string}>}
 */
export async function obtainElectron({ retry, say }) {
  const present = findElectron();
  if (present) return { binary: present };
  const failure = lastFailure();
  if (failure && !retry)
    return { reason: `it could not be fetched earlier (${failure.reason}); npm start -- --electron tries again` };
  const limitS = retry ? ASKED_FETCH_LIMIT_S : FETCH_LIMIT_S;
  say(`fetching Electron ${electronVersion()}, once, for at most ${limitS} s`);
  const reason = await runFetch(limitS, say);
  const binary = findElectron();
  if (binary) {
    rmSync(failurePath, { force: true });
    return { binary };
  }
  rememberFailure(reason ?? 'its installer left no binary');
  return { reason: `it could not be fetched (${reason ?? 'its installer left no binary'})` };
}
