import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import process from 'node:process';

const ROOT = join(import.meta.dirname, '..', '..');

/** `kerfhand verify` on the command line, as anybody would who has nothing but the files. */
export function verifyRun(run: string, key: string, verdict: string): { code: number | null; said: string } {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [
      '--disable-warning=ExperimentalWarning',
      'electron/command-line.ts',
      'verify',
      run,
      '--public-key',
      key,
      '--verdict',
      verdict,
    ],
    { cwd: ROOT, encoding: 'utf8' },
  );
  return { code: status, said: stdout + stderr };
}
