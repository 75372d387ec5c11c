import { existsSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { root } from './root.mjs';

const NEEDED_MAJOR = 24;

/** Whether this very process is the runtime that the app is written for. */
export function isNode24() {
  return Number(process.versions.node.split('.')[0]) >= NEEDED_MAJOR;
}

/**
 * Path of a Node of version 24 or later: this one, or the one that npm installed as an optional dependency for the platform.
 * Throws where there is neither.
 */
export function findNode24() {
  if (isNode24()) return process.execPath;
  const name = process.platform === 'win32' ? 'win' : process.platform;
  const program = join(
    root,
    'node_modules',
    `node-${name}-${process.arch}`,
    'bin',
    process.platform === 'win32' ? 'node.exe' : 'node',
  );
  if (existsSync(program)) return program;
  throw new Error(
    `Kerfhand runs on Node ${NEEDED_MAJOR} or later; this is Node ${process.versions.node}, and npm has none for ${process.platform} on ${process.arch}. Install Node ${NEEDED_MAJOR} and try again.`,
  );
}

/** Switches for our own programs; node:sqlite still announces itself as experimental on every start. */
export const NODE_SWITCHES = ['--disable-warning=ExperimentalWarning'];
