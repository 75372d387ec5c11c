import { spawn } from 'node:child_process';
import path from 'node:path';

const COMMAND_LINE = path.join(import.meta.dirname, '..', '..', 'electron', 'command-line.ts');

export interface Finished {
  code: number | null;
  stdout: string;
  stderr: string;
}

/** Runs the command line as a person does, in a process of its own. */
export function kerfhand(args: readonly string[], cwd?: string): Promise<Finished> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--disable-warning=ExperimentalWarning', COMMAND_LINE, ...args], {
      cwd,
      stdio: 'pipe',
    });
    let stdout = '';
    let stderr = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      stdout += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      stderr += text;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
  });
}

/** The one JSON document of a command that must succeed. */
export async function kerfhandJson<T = Record<string, unknown>>(args: readonly string[], cwd?: string): Promise<T> {
  const { code, stdout, stderr } = await kerfhand([...args, '--json'], cwd);
  if (code !== 0) throw new Error(`exit ${code}: ${stderr}`);
  return JSON.parse(stdout) as T;
}
