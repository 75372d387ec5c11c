/** The host behind a loopback address, for machines without the Electron binary: `node electron/loopback.ts [--port N]`. */
import process from 'node:process';
import { findAppPaths } from './host/app-paths.ts';
import { runLoopback } from './loopback/run-loopback.ts';

process.exitCode = await runLoopback(process.argv.slice(2), findAppPaths(import.meta.dirname));
