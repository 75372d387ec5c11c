import { spawn } from 'node:child_process';
import { constants } from 'node:os';
import process from 'node:process';

/** @type {NodeJS.Signals[]} */
const FORWARDED = ['SIGINT', 'SIGTERM', 'SIGHUP'];
const startedBy = process.ppid;
const ORPHAN_CHECK_MS = 500;

/**
 * Whether npm, which ran this, is gone. npm hands SIGTERM to its shell only, and a killed npm hands on nothing: what it started
 * would stay behind.
 */
function isOrphanOfNpm() {
  return process.env.npm_lifecycle_event !== undefined && process.ppid !== startedBy;
}

/**
 * Runs a program to its end and gives its exit code (128 + number where a signal ended it). A signal that ends this process is
 * handed on first, so nothing is left running; a terminal's Ctrl-C reaches both anyway, and a program must bear it twice.
 * @param {string} program
 * @param {string[]} args
 * @param {import('node:child_process').SpawnOptions} [options]
 * @returns {Promise<number>}
 */
export function runChild(program, args, options = {}) {
  const child = spawn(program, args, { stdio: 'inherit', ...options });
  return untilExit(child);
}

/**
 * Waits for a child's end while handing on the signals that this process gets.
 * @param {import('node:child_process').ChildProcess} child
 * @returns {Promise<number>}
 */
export function untilExit(child) {
  /** @param {NodeJS.Signals} signal */
  const forward = (signal) => child.kill(signal);
  for (const signal of FORWARDED) process.on(signal, forward);
  const orphanCheck = setInterval(() => isOrphanOfNpm() && child.kill('SIGTERM'), ORPHAN_CHECK_MS);
  return new Promise((resolve, reject) => {
    const settle = () => {
      clearInterval(orphanCheck);
      for (const signal of FORWARDED) process.off(signal, forward);
    };
    child.once('error', (error) => {
      settle();
      reject(error);
    });
    child.once('exit', (code, signal) => {
      settle();
      resolve(code ?? 128 + (signal ? constants.signals[signal] : 1));
    });
  });
}
