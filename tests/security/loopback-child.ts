// Run by run-loopback.test.ts: the loopback program on another page. Arguments: the folder of the page, then those of the program.
import process from 'node:process';
import { runLoopback } from '../../electron/loopback/run-loopback.ts';
import { SCENARIOS } from '../host/sample-hand.ts';

const [pageFolder = '', ...args] = process.argv.slice(2);
process.exitCode = await runLoopback(args, { version: '0.1.0', scenariosFolder: SCENARIOS, pageFolder });
