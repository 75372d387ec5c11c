import { mkdirSync, writeFileSync } from 'node:fs';
import { type IncomingHttpHeaders, request } from 'node:http';
import { connect } from 'node:net';
import path from 'node:path';
import { onTestFinished } from 'vitest';
import { listPageFiles } from '../../electron/host/page-files.ts';
import { type LoopbackOptions, startLoopbackServer } from '../../electron/loopback/loopback-server.ts';
import { openTestHost, temporaryFolder } from '../host/open-test-host.ts';

export interface HttpReply {
  status: number;
  headers: IncomingHttpHeaders;
  text: string;
}

/** Says whether the policy let it evaluate text; a debugger's own evaluations are exempt from the policy, so the page must try. */
const PAGE_SCRIPT = `
let evalRan = 'yes';
try { (0, eval)('1'); } catch { evalRan = 'no'; }
document.documentElement.dataset.evalRan = evalRan;
document.title = 'Kerfhand runs';
`;

/** A small built page with a file outside of it that must never come out. */
export function writeTestPage(folder: string): string {
  const page = path.join(folder, 'page');
  mkdirSync(path.join(page, 'assets'), { recursive: true });
  writeFileSync(
    path.join(page, 'index.html'),
    '<!doctype html><title>Kerfhand</title><script type="module" src="./assets/page.js"></script>',
  );
  writeFileSync(path.join(page, 'assets', 'page.js'), PAGE_SCRIPT);
  writeFileSync(path.join(folder, 'secret.txt'), 'secret');
  return page;
}

export async function openTestLoopback(options: Partial<LoopbackOptions> = {}) {
  const folder = temporaryFolder();
  const host = await openTestHost({ folder: path.join(folder, 'data') });
  const server = await startLoopbackServer({ host, pageFiles: listPageFiles(writeTestPage(folder)), port: 0, ...options });
  onTestFinished(() => server.close());
  const origin = `http://127.0.0.1:${server.port}`;

  /** A request exactly as given; Node's client normalises nothing in `target`. */
  function send(
    method: string,
    target: string,
    headers: Record<string, string> = {},
    body?: string | Buffer,
  ): Promise<HttpReply> {
    return new Promise((resolve, reject) => {
      const outgoing = request({ host: '127.0.0.1', port: server.port, method, path: target, headers, agent: false }, (reply) => {
        let text = '';
        reply.setEncoding('utf8').on('data', (part) => {
          text += part;
        });
        reply.on('end', () => resolve({ status: reply.statusCode ?? 0, headers: reply.headers, text }));
      });
      outgoing.on('error', reject);
      outgoing.end(body);
    });
  }

  /** Opens the address as the browser does and gives the cookie it gets. */
  async function openSession(): Promise<string> {
    const reply = await send('GET', server.address.slice(origin.length));
    return reply.headers['set-cookie']?.[0]?.split(';')[0] ?? '';
  }

  /** Bytes straight to the port; gives all that comes back until the server hangs up. */
  function sendRaw(bytes: string | Buffer): Promise<string> {
    return new Promise((resolve, reject) => {
      let text = '';
      const socket = connect(server.port, '127.0.0.1', () => socket.write(bytes));
      socket.setEncoding('utf8').on('data', (part) => {
        text += part;
      });
      socket.on('close', () => resolve(text));
      socket.on('error', reject);
    });
  }

  const asPage = (cookie: string) => ({ cookie, origin, 'content-type': 'application/json' });
  return { host, server, origin, send, sendRaw, openSession, asPage };
}
