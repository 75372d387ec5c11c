import { type ChildProcess, spawn } from 'node:child_process';
import { Agent, request } from 'node:http';
import path from 'node:path';
import { buildEntry } from '../../electron/bootstrap/build.mjs';
import { buildFolder } from '../../electron/bootstrap/root.mjs';
import type { Answer, Reply, Request, Verb } from '../../electron/contract.ts';

const READY = /Kerfhand is at http:\/\/127\.0\.0\.1:(\d+)(\S*)/;
const BUILT = path.join(buildFolder, 'faults');

/** A host process as its user runs it, and the one page that talks to it over its address. */
export interface FaultHost {
  readonly child: ChildProcess;
  /** @throws HostGone where the process is no more */
  call<V extends Verb>(verb: V, request: Request<V>): Promise<Answer<V>>;
  /** The reply of a call that must be answered. @throws HostGone, or Error with the host's sentence */
  ask<V extends Verb>(verb: V, request: Request<V>): Promise<Reply<V>>;
  kill(): Promise<void>;
}

/** What a call throws whose host was killed: it was not acknowledged. */
export class HostGone extends Error {}

/** The loopback host and its worker, each one file, as a package carries them: the sources take many times as long to start. */
export async function buildLoopback(): Promise<void> {
  await buildEntry('loopback.ts', 'es', 'loopback.mjs', BUILT);
  await buildEntry('host/core-worker.ts', 'es', 'core-worker.mjs', BUILT);
}

/** Starts the host on a data folder; `passing` is its place for temporary files. It is told of before it is ready. */
export function spawnHost(folder: string, passing: string, nodeArguments: readonly string[] = []): ChildProcess {
  const env = { ...process.env, KERFHAND_DATA: folder, TMPDIR: passing, NODE_COMPILE_CACHE: path.join(BUILT, 'compile-cache') };
  return spawn(process.execPath, ['--disable-warning=ExperimentalWarning', ...nodeArguments, path.join(BUILT, 'loopback.mjs')], {
    env,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

export function ended(child: ChildProcess): Promise<void> {
  return child.exitCode !== null || child.signalCode !== null
    ? Promise.resolve()
    : new Promise((resolve) => child.once('exit', () => resolve()));
}

/** Waits until a host is ready and opens its page. @throws Error with what it said where it ended before */
export function whenReady(child: ChildProcess): Promise<FaultHost> {
  return new Promise((resolve, reject) => {
    let said = '';
    child.stderr?.on('data', (bytes: Buffer) => {
      said += bytes.toString();
    });
    child.stdout?.on('data', (bytes: Buffer) => {
      said += bytes.toString();
      const at = READY.exec(said);
      if (at) openPage(child, Number(at[1]), at[2] as string).then(resolve, reject);
    });
    child.once('exit', (code, signal) => reject(new HostGone(`The host ended with ${code ?? signal}. It said: ${said}`)));
  });
}

async function openPage(child: ChildProcess, port: number, opening: string): Promise<FaultHost> {
  const agent = new Agent({ keepAlive: true });
  const origin = `http://127.0.0.1:${port}`;
  const opened = await send(agent, port, 'GET', opening, {});
  const headers = { origin, cookie: opened.cookie, 'content-type': 'application/json' };

  async function call<V extends Verb>(verb: V, payload: Request<V>): Promise<Answer<V>> {
    return JSON.parse((await send(agent, port, 'POST', `/call/${verb}`, headers, JSON.stringify(payload))).text) as Answer<V>;
  }

  return {
    child,
    call,
    async ask<V extends Verb>(verb: V, payload: Request<V>) {
      const answer = await call(verb, payload);
      if (!answer.ok) throw new Error(`${verb}: ${answer.error.code}: ${answer.error.message}`);
      return answer.reply;
    },
    async kill() {
      child.kill('SIGKILL');
      await ended(child);
      agent.destroy();
    },
  };
}

function send(
  agent: Agent,
  port: number,
  method: string,
  target: string,
  headers: Record<string, string>,
  body?: string,
): Promise<{ text: string; cookie: string }> {
  return new Promise((resolve, reject) => {
    const gone = (error: NodeJS.ErrnoException) => {
      // A connection that stood idle for long was let go by the host just as it was used again: nothing has been asked yet.
      if (outgoing.reusedSocket && error.code === 'ECONNRESET') resolve(send(agent, port, method, target, headers, body));
      else reject(new HostGone(error.message));
    };
    const outgoing = request({ host: '127.0.0.1', port, method, path: target, headers, agent }, (reply) => {
      let text = '';
      reply.setEncoding('utf8').on('data', (part) => {
        text += part;
      });
      reply.on('error', gone);
      reply.on('end', () => resolve({ text, cookie: reply.headers['set-cookie']?.[0]?.split(';')[0] ?? '' }));
    });
    outgoing.on('error', gone);
    outgoing.end(body);
  });
}
