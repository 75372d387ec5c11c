import process from 'node:process';
import type { Readable } from 'node:stream';
import { parseArgs } from 'node:util';
import type { AppPaths } from '../host/app-paths.ts';
import { dataFolder } from '../host/data-folder.ts';
import { HostError } from '../host/host-error.ts';
import { openYards } from '../host/open-yards.ts';
import { listPageFiles } from '../host/page-files.ts';
import { startLoopbackServer } from './loopback-server.ts';

/**
 * Runs host and server until SIGINT, SIGTERM or SIGHUP, with --until-input-ends also until the end of standard input: whoever
 * started it holds that open, and cannot leave it behind. Prints one line with the address to standard output when it is ready; a
 * failure is one sentence on standard error.
 * @returns the exit code: 0 where it was stopped, 1 where it could not start
 */
export async function runLoopback(args: string[], paths: AppPaths): Promise<number> {
  try {
    const { port, untilInputEnds } = readFlags(args);
    const stopped = untilStopped(untilInputEnds);
    const pageFiles = listPageFiles(paths.pageFolder);
    const host = await openYards({
      folder: dataFolder(),
      scenariosFolder: paths.scenariosFolder,
      shell: 'loopback',
      appVersion: paths.version,
      log: complain,
      tell: complain,
    });
    try {
      const server = await startLoopbackServer({ host, pageFiles, port, log: complain });
      process.stdout.write(`Kerfhand is at ${server.address}\n`);
      await stopped;
      await server.close();
    } finally {
      await host.close();
    }
    return 0;
  } catch (error) {
    complain(sentence(error));
    return 1;
  }
}

function complain(line: string): void {
  process.stderr.write(`${line}\n`);
}

function readFlags(args: string[]): { port: number; untilInputEnds: boolean } {
  const options = { port: { type: 'string', default: '0' }, 'until-input-ends': { type: 'boolean', default: false } } as const;
  const { values } = parseArgs({ args, options, strict: true });
  if (!/^\d{1,5}$/.test(values.port) || Number(values.port) > 65535) {
    throw new HostError('bad-request', `--port must be a number from 0 to 65535 and is ${JSON.stringify(values.port)}.`);
  }
  return { port: Number(values.port), untilInputEnds: values['until-input-ends'] };
}

function untilStopped(untilInputEnds: boolean): Promise<void> {
  return new Promise((resolve) => {
    const stop = () => resolve();
    // A terminal's Ctrl-C arrives more than once when the starter hands it on; later ones change nothing.
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, stop);
    if (!untilInputEnds) return;
    const input: Readable & { unref?: () => void } = process.stdin.on('end', stop).on('error', stop).resume();
    // Waiting for it keeps no program alive: after a signal it stays open. A file ends by itself and has no such call.
    input.unref?.();
  });
}

/** Errors that a person can mend get their sentence alone; anything else is a fault and shows where it is. */
function sentence(error: unknown): string {
  if (error instanceof HostError) return error.message;
  if (error instanceof Error && 'code' in error) {
    if (error.code === 'EADDRINUSE') return 'That port is in use by another program; choose another or leave --port out.';
    if (error.code === 'EACCES') return 'That port is not allowed on this system; choose one above 1023 or leave --port out.';
    if (String(error.code).startsWith('ERR_PARSE_ARGS'))
      return `${error.message}. Usage: loopback [--port N] [--until-input-ends]`;
  }
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
