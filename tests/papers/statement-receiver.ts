import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import validate from '@learninglocker/xapi-validation';
import { onTestFinished } from 'vitest';
import { LOCALHOST_CERTIFICATE, LOCALHOST_KEY } from './localhost-certificate.ts';

export interface ReceivedRequest {
  method: string;
  url: string;
  version: string | undefined;
  contentType: string | undefined;
  authorization: string | undefined;
  statements: { id: string }[];
}

export interface StatementReceiver {
  endpoint: string;
  requests: ReceivedRequest[];
  /** What it holds, by id, as JSON text. */
  kept: Map<string, string>;
}

const USER = 'yard';
const PASSWORD = 'p\u00e4ss:word';
export const RECEIVER_LOGIN = { user: USER, password: PASSWORD };

/**
 * A small learning-record store over HTTP that keeps the standard's rules for POST statements: version header, Basic
 * authorization, JSON, every statement valid (by an independent validator), the same id with other content is a conflict and then
 * nothing of the request is kept. `first` may answer a request in its stead: to be busy, slow, away.
 */
export async function startReceiver(
  first?: (count: number, response: ServerResponse) => boolean,
  isSecure = false,
): Promise<StatementReceiver> {
  const requests: ReceivedRequest[] = [];
  const kept = new Map<string, string>();
  const listener = (request: IncomingMessage, response: ServerResponse) => void answer(request, response);
  const server = isSecure
    ? createSecureServer({ cert: LOCALHOST_CERTIFICATE, key: LOCALHOST_KEY }, listener)
    : createServer(listener);
  async function answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    let body = '';
    for await (const chunk of request.setEncoding('utf8')) body += chunk;
    const received: ReceivedRequest = {
      method: request.method ?? '',
      url: request.url ?? '',
      version: request.headers['x-experience-api-version'] as string | undefined,
      contentType: request.headers['content-type'],
      authorization: request.headers.authorization,
      statements: JSON.parse(body),
    };
    requests.push(received);
    if (first?.(requests.length, response)) return;
    const end = (status: number, words = '') => {
      response.writeHead(status, { 'x-experience-api-version': '1.0.3', 'content-type': 'application/json' });
      response.end(words);
    };
    if (received.method !== 'POST' || received.url !== '/xapi/statements') return end(404);
    const login = `Basic ${Buffer.from(`${USER}:${PASSWORD}`, 'utf8').toString('base64')}`;
    if (received.authorization !== login) return end(401, 'Who are you?');
    if (received.version !== '1.0.3' || received.contentType !== 'application/json') return end(400, 'Headers missing');
    const warnings = received.statements.flatMap((statement) => validate(statement));
    if (warnings.length > 0) return end(400, JSON.stringify(warnings.map(({ path }) => path)));
    const texts = received.statements.map((statement) => [statement.id, JSON.stringify(statement)] as const);
    if (texts.some(([id, text]) => (kept.get(id) ?? text) !== text)) return end(409);
    for (const [id, text] of texts) kept.set(id, text);
    end(200, JSON.stringify(texts.map(([id]) => id)));
  }
  await new Promise<void>((resolve) => server.listen(0, isSecure ? 'localhost' : '127.0.0.1', resolve));
  onTestFinished(() => {
    server.closeAllConnections();
    server.close();
  });
  const { port } = server.address() as AddressInfo;
  return { endpoint: isSecure ? `https://localhost:${port}/xapi/` : `http://127.0.0.1:${port}/xapi/`, requests, kept };
}
