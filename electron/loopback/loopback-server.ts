import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { type CallError, REQUEST_LIMIT_BYTES } from '../contract.ts';
import { type Connection, newConnection } from '../host/caller.ts';
import type { Host } from '../host/host.ts';
import type { PageFiles } from '../host/page-files.ts';
import { PAGE_HEADERS } from '../host/page-policy.ts';
import { isNestedTooDeep, PAYLOAD_DEPTH_LIMIT } from '../host/payload-problem.ts';
import { readBody } from './read-body.ts';
import { SessionGate } from './session-gate.ts';

export interface LoopbackOptions {
  host: Host;
  pageFiles: PageFiles;
  /** 0 = any free one. */
  port: number;
  /** Longest time from the first byte of a request to its last, ms. */
  requestLimitMs?: number;
  /** Most bytes of a request body. */
  requestLimitBytes?: number;
  /** Takes what only a developer needs to know. */
  log?: (line: string) => void;
}

export interface LoopbackServer {
  /** To be opened once, in one browser. */
  address: string;
  port: number;
  close(): Promise<void>;
}

const CALL_PREFIX = '/call/';
const DEFAULT_REQUEST_LIMIT_MS = 30_000;

/** Puts a host behind 127.0.0.1. Rejects where the port is taken. Closing it leaves the host open. */
export async function startLoopbackServer(options: LoopbackOptions): Promise<LoopbackServer> {
  const limitMs = options.requestLimitMs ?? DEFAULT_REQUEST_LIMIT_MS;
  const server = createServer({
    requestTimeout: limitMs,
    headersTimeout: Math.min(10_000, limitMs),
    connectionsCheckingInterval: Math.min(1000, limitMs / 2),
  });
  const port = await listen(server, options.port);
  const gate = new SessionGate(port);
  // The gate lets one browser in, once: whoever signs in there is signed in for that browser alone.
  const connection = newConnection();
  server.on('request', (request, response) => {
    answer(request, response, gate, connection, options).catch((error: unknown) => {
      // The connection broke, or was cut by the time limit, while the request was being read: nobody's fault here.
      const brokeOff = !request.complete;
      if (!brokeOff)
        options.log?.(`${request.method}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
      if (response.headersSent) return;
      if (brokeOff) refuse(request, response, 400, 'bad-request', 'The request broke off.');
      else refuse(request, response, 500, 'internal', 'Something went wrong inside Kerfhand; what was kept before is safe.');
    });
  });
  return {
    address: gate.address,
    port,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeIdleConnections();
        // A browser keeps its connections open; calls under way get a moment to be answered.
        setTimeout(() => server.closeAllConnections(), 1000).unref();
      }),
  };
}

function listen(server: Server, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host: '127.0.0.1', port, exclusive: true }, () => {
      const address = server.address();
      resolve(typeof address === 'object' && address !== null ? address.port : port);
    });
  });
}

async function answer(
  request: IncomingMessage,
  response: ServerResponse,
  gate: SessionGate,
  connection: Connection,
  options: LoopbackOptions,
): Promise<void> {
  const foreign = gate.whyForeign(request);
  if (foreign) return refuse(request, response, 403, 'forbidden', foreign);
  const url = URL.canParse(request.url ?? '', gate.origin) ? new URL(request.url ?? '', gate.origin) : null;
  if (!url || url.origin !== gate.origin)
    return refuse(request, response, 400, 'bad-request', 'The address of the request is malformed.');

  const token = url.searchParams.get('token');
  if (token !== null && request.method === 'GET' && url.pathname === '/') {
    const cookie = gate.redeem(token);
    if (cookie) return redirectHome(response, cookie);
    if (!gate.hasSession(request)) {
      return refuse(
        request,
        response,
        403,
        'forbidden',
        'This address was used already or is wrong; it opens once, so start Kerfhand again for a new one.',
      );
    }
  }
  if (!gate.hasSession(request)) {
    return refuse(request, response, 403, 'forbidden', 'Open Kerfhand with the address that it prints when it starts.');
  }
  if (url.pathname.startsWith(CALL_PREFIX))
    return await answerCall(request, response, url.pathname.slice(CALL_PREFIX.length), connection, options);
  return await sendFile(request, response, url.pathname, options.pageFiles);
}

function redirectHome(response: ServerResponse, cookie: string): void {
  response.writeHead(303, { ...PAGE_HEADERS, location: '/', 'set-cookie': cookie }).end();
}

async function answerCall(
  request: IncomingMessage,
  response: ServerResponse,
  verb: string,
  connection: Connection,
  options: LoopbackOptions,
): Promise<void> {
  if (request.method !== 'POST')
    return refuse(request, response, 405, 'bad-request', 'A call is made with POST.', { allow: 'POST' });
  if (!/^application\/json\s*(;|$)/i.test(request.headers['content-type'] ?? '')) {
    return refuse(request, response, 415, 'bad-request', 'A call carries its request as application/json.');
  }
  const body = await readBody(request, options.requestLimitBytes ?? REQUEST_LIMIT_BYTES);
  if (!body.ok) return refuse(request, response, body.status, body.status === 413 ? 'too-large' : 'bad-request', body.sentence);
  if (isNestedTooDeep(body.text))
    return refuse(request, response, 400, 'bad-request', `The request is nested deeper than ${PAYLOAD_DEPTH_LIMIT} levels.`);
  let payload: unknown;
  try {
    payload = JSON.parse(body.text);
  } catch {
    return refuse(request, response, 400, 'bad-request', 'The request is not JSON.');
  }
  send(
    request,
    response,
    200,
    'application/json; charset=utf-8',
    JSON.stringify(await options.host.call(verb, payload, connection)),
  );
}

async function sendFile(request: IncomingMessage, response: ServerResponse, path: string, files: PageFiles): Promise<void> {
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    return refuse(request, response, 405, 'bad-request', 'Files of the page are only read.', { allow: 'GET, HEAD' });
  }
  const file = files.get(path);
  if (!file) return refuse(request, response, 404, 'not-found', 'There is no such file of the page.');
  send(request, response, 200, file.contentType, await file.read());
}

function refuse(
  request: IncomingMessage,
  response: ServerResponse,
  status: number,
  code: CallError['code'],
  message: string,
  headers: Record<string, string> = {},
): void {
  const isCall = request.url?.startsWith(CALL_PREFIX) ?? false;
  const body = isCall ? JSON.stringify({ ok: false, error: { code, message } }) : `${message}\n`;
  // What was not read of the request must not be taken for the next one.
  const extra = request.complete ? headers : { ...headers, connection: 'close' };
  send(request, response, status, isCall ? 'application/json; charset=utf-8' : 'text/plain; charset=utf-8', body, extra);
}

function send(
  request: IncomingMessage,
  response: ServerResponse,
  status: number,
  contentType: string,
  body: string | Uint8Array,
  headers: Record<string, string> = {},
): void {
  response.writeHead(status, {
    ...PAGE_HEADERS,
    ...headers,
    'content-type': contentType,
    'content-length': Buffer.byteLength(body),
  });
  response.end(request.method === 'HEAD' ? undefined : body);
}
