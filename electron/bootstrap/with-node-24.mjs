// node electron/bootstrap/with-node-24.mjs FILE ARGUMENTS...
// Runs one of our programs, or one from node_modules, on Node 24 from a checkout in any state. Its stdout and exit code pass through.
import process from 'node:process';
import { runOnNode24 } from './run-on-node-24.mjs';

process.exitCode = await runOnNode24(process.argv.slice(2));
