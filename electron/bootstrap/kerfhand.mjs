// npm run -s kerfhand -- VERB ...: the command line, from a checkout in any state.
import { join } from 'node:path';
import process from 'node:process';
import { root } from './root.mjs';
import { runOnNode24 } from './run-on-node-24.mjs';

// npm moves to the top folder; file names on the command line mean the folder in which the person stood.
const cwd = process.env.npm_lifecycle_event === 'kerfhand' ? process.env.INIT_CWD : undefined;
process.exitCode = await runOnNode24([join(root, 'electron', 'command-line.ts'), ...process.argv.slice(2)], cwd ? { cwd } : {});
