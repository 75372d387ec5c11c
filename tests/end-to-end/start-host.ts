import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';

/** The real loopback host, started as its user would start it, with records in a folder of its own. */
export interface RunningHost {
  /** Address with the one-time token. */
  readonly address: string;
  /** Ends it as an orderly close does. */
  stop(): Promise<void>;
  /** Ends it as a power cut does. */
  kill(): Promise<void>;
}

const READY = /Kerfhand is at (http:\/\/127\.0\.0\.1:\d+\/\S*)/;
const PATIENCE_MS = 30_000;

export function temporaryFolder(): { path: string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), 'kerfhand-end-to-end-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

function ended(child: ChildProcess): Promise<void> {
  return child.exitCode !== null || child.signalCode !== null
    ? Promise.resolve()
    : new Promise((resolve) => child.once('exit', () => resolve()));
}

/** Starts the host on `folder`; resolves once it says where it is. Rejects with what it said when it does not come up. */
export function startHost(folder: string): Promise<RunningHost> {
  const child = spawn(process.execPath, ['--disable-warning=ExperimentalWarning', 'electron/loopback.ts'], {
    cwd: join(import.meta.dirname, '..', '..'),
    env: { ...process.env, KERFHAND_DATA: folder },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  return new Promise((resolve, reject) => {
    const late = setTimeout(() => {
      child.kill('SIGKILL');
      reject(new Error(`The host did not come up within ${PATIENCE_MS / 1000} s. It said: ${said}`));
    }, PATIENCE_MS);
    const end = async (signal: NodeJS.Signals) => {
      child.kill(signal);
      await ended(child);
    };
    child.stderr.on('data', (bytes: Buffer) => {
      said += bytes.toString();
    });
    child.stdout.on('data', (bytes: Buffer) => {
      said += bytes.toString();
      const address = READY.exec(said)?.[1];
      if (!address) return;
      clearTimeout(late);
      resolve({ address, stop: () => end('SIGTERM'), kill: () => end('SIGKILL') });
    });
    child.once('exit', (code) => {
      clearTimeout(late);
      reject(new Error(`The host ended with ${code} before it was ready. It said: ${said}`));
    });
  });
}

/** A host on records of its own for as long as the visit lasts, however that ends. */
export async function inYard(visit: (host: RunningHost) => Promise<void>): Promise<void> {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await visit(host);
  } finally {
    await host.stop();
    folder.remove();
  }
}
