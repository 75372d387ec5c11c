import process from 'node:process';
import { ensureInstalled } from './install.mjs';
import { findNode24, NODE_SWITCHES } from './node-24.mjs';
import { runChild } from './run-child.mjs';

/**
 * Makes sure that the packages are there, then runs a program on Node 24 and gives its exit code. What goes wrong before it
 * starts is one sentence on stderr and the code 1.
 * @param {string[]} args the program's file and its arguments
 * @param {{cwd?: string}} [options]
 */
export async function runOnNode24(args, options) {
  try {
    await ensureInstalled();
    return await runChild(findNode24(), [...NODE_SWITCHES, ...args], options);
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : error}\n`);
    return 1;
  }
}
