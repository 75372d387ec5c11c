import { setTimeout as wait } from 'node:timers/promises';
import { XAPI_VERSION, type XapiStatement } from './xapi-statements.ts';

/** A learning-record store as an instructor enters it. */
export interface StatementStore {
  /** Base address, to which `statements` is added: https, or http on this very machine. */
  endpoint: string;
  user: string;
  password: string;
}

export interface SendOptions {
  signal?: AbortSignal;
  onProgress?: (done: number, total: number) => void;
  /** Waits before tries two, three...; tests shorten them. */
  waitsMs?: readonly number[];
  timeoutMs?: number;
}

export interface SendOutcome {
  /** Ids that the store has now. */
  sent: string[];
  /** Ids that the store has already, with another content: it keeps its own. */
  conflicting: string[];
  /** Why the rest was not sent, one sentence; null where nothing is left. Never holds the password. */
  problem: string | null;
}

const BATCH = 50;
const WAITS_MS: readonly number[] = [1000, 4000, 15_000];
const TIMEOUT_MS = 30_000;
const LONGEST_WAIT_MS = 60_000;
const LONGEST_ADDRESS = 500;
/** Of a store's own words as much as fits a sentence. */
const QUOTED_CHARS = 200;

/** What one request came to: a status, or the reason why there was none. */
type Attempt = { status: number; words: string; retryAfterMs: number | null } | { status: null; why: string; mayPass: boolean };

/**
 * Posts statements to a store, some at a time, in order. Sending the same again is harmless: ids are stable.
 * What is busy or away is tried again after growing waits; what is refused is not. Never throws for a reason of the store's.
 */
export async function sendStatements(
  statements: readonly XapiStatement[],
  store: StatementStore,
  options: SendOptions = {},
): Promise<SendOutcome> {
  const outcome: SendOutcome = { sent: [], conflicting: [], problem: null };
  const address = addressOf(store.endpoint);
  if (address === null) {
    return {
      ...outcome,
      problem: `${shortened(plainAddress(store.endpoint))} is no address of a store: it must begin with https:// (http:// only on this machine) and hold no password.`,
    };
  }
  /** Batches still to send, next one first. */
  const queue: XapiStatement[][] = [];
  for (let from = 0; from < statements.length; from += BATCH) queue.push(statements.slice(from, from + BATCH));
  for (let batch = queue.shift(); batch; batch = queue.shift()) {
    const attempt = await tryUntilAnswered(address, store, batch, options);
    if (attempt.status === null) return { ...outcome, problem: attempt.why };
    const isGood = attempt.status === 200 || attempt.status === 204;
    if (isGood) {
      outcome.sent.push(...batch.map(({ id }) => id));
    } else if ((attempt.status === 409 || attempt.status === 413) && batch.length > 1) {
      // One statement of the batch is known with another content, or the batch is too large: smaller ones tell which.
      const half = batch.length >> 1;
      queue.unshift(batch.slice(0, half), batch.slice(half));
    } else if (attempt.status === 409) {
      outcome.conflicting.push(batch[0].id);
    } else {
      return { ...outcome, problem: sentenceOf(attempt.status, attempt.words, address) };
    }
    options.onProgress?.(outcome.sent.length + outcome.conflicting.length, statements.length);
  }
  return outcome;
}

async function tryUntilAnswered(
  address: URL,
  store: StatementStore,
  batch: XapiStatement[],
  options: SendOptions,
): Promise<Attempt> {
  const waits = options.waitsMs ?? WAITS_MS;
  for (let tries = 0; ; tries++) {
    const attempt = await post(address, store, batch, options);
    if (options.signal?.aborted) return { status: null, why: 'The sending was stopped.', mayPass: false };
    if (!isPassing(attempt) || tries === waits.length) return attempt;
    const asked = attempt.status === null ? null : attempt.retryAfterMs;
    try {
      await wait(Math.min(asked ?? waits[tries], LONGEST_WAIT_MS), undefined, { signal: options.signal });
    } catch {
      return { status: null, why: 'The sending was stopped.', mayPass: false };
    }
  }
}

/** No answer, too many requests, or a fault of the store's own: it may be over in a moment. */
function isPassing(attempt: Attempt): boolean {
  if (attempt.status === null) return attempt.mayPass;
  return attempt.status === 429 || attempt.status >= 500;
}

async function post(address: URL, store: StatementStore, batch: XapiStatement[], options: SendOptions): Promise<Attempt> {
  const timeout = AbortSignal.timeout(options.timeoutMs ?? TIMEOUT_MS);
  try {
    const response = await fetch(address, {
      method: 'POST',
      headers: {
        authorization: `Basic ${Buffer.from(`${store.user}:${store.password}`, 'utf8').toString('base64')}`,
        'content-type': 'application/json',
        'x-experience-api-version': XAPI_VERSION,
      },
      body: JSON.stringify(batch),
      // Name and password are for this address and for none that it points to.
      redirect: 'manual',
      signal: options.signal ? AbortSignal.any([options.signal, timeout]) : timeout,
    });
    return { status: response.status, words: await firstWords(response), retryAfterMs: retryAfterMs(response) };
  } catch (error) {
    const cause = causeOf(error);
    if (CERTIFICATE_FAULT.test(cause)) return { status: null, why: certificateSentence(address, cause), mayPass: false };
    const reason = timeout.aborted ? 'it did not answer in time' : cause;
    return { status: null, mayPass: true, why: `The store at ${address.host} could not be reached: ${reason}.` };
  }
}

async function firstWords(response: Response): Promise<string> {
  let words = '';
  const decoder = new TextDecoder();
  for await (const chunk of response.body ?? []) {
    words += decoder.decode(chunk, { stream: true });
    if (words.length > QUOTED_CHARS) break;
  }
  return shortened(words.replace(/\s+/g, ' ').trim());
}

function retryAfterMs(response: Response): number | null {
  const seconds = Number(response.headers.get('retry-after') ?? Number.NaN);
  return Number.isFinite(seconds) && seconds >= 0 ? seconds * 1000 : null;
}

/** Names that OpenSSL and Node give to what may be wrong with a certificate. */
const CERTIFICATE_FAULT = /CERT|UNABLE_TO_(GET|VERIFY|DECODE)|ALTNAME|CRL/;

/** What is wrong with the certificate of a store, and what can be done here: asking again would not change it. */
function certificateSentence({ host }: URL, cause: string): string {
  if (cause === 'CERT_HAS_EXPIRED')
    return `The certificate of the store at ${host} has run out (${cause}); whoever keeps the store has to renew it.`;
  if (cause === 'CERT_NOT_YET_VALID')
    return `The certificate of the store at ${host} is not valid yet (${cause}); look whether the clock of this computer is right.`;
  if (cause.includes('ALTNAME'))
    return `The certificate of the store at ${host} is for another name (${cause}); enter the address that it is for.`;
  return `The certificate of the store at ${host} is not trusted on this computer (${cause}), so nothing was sent. If it comes from an authority of your own, start Kerfhand with NODE_EXTRA_CA_CERTS set to the file (PEM) of that authority's certificate, or with NODE_USE_SYSTEM_CA=1 where it is in the system's own store.`;
}

function causeOf(error: unknown): string {
  const cause = error instanceof Error && error.cause instanceof Error ? error.cause : error;
  if (cause instanceof Error && 'code' in cause && typeof cause.code === 'string') return cause.code;
  return cause instanceof Error ? cause.message : String(cause);
}

function sentenceOf(status: number, words: string, address: URL): string {
  const said = words === '' ? '' : ` It says: ${words}`;
  if (status === 401 || status === 403) return `The store at ${address.host} does not accept this name and password (${status}).`;
  if (status === 404) return `There is no store at ${address.href} (404).`;
  if (status >= 300 && status < 400) return `The store at ${address.host} has moved (${status}); enter its new address.`;
  if (status === 429 || status >= 500)
    return `The store at ${address.host} is busy or out of order (${status}); try again later.${said}`;
  return `The store at ${address.host} refused the statements (${status}).${said}`;
}

/** The address of the store's statements, or null where it is none that a password may be sent to. */
function addressOf(endpoint: string): URL | null {
  if (endpoint.length > LONGEST_ADDRESS) return null;
  const url = URL.parse(endpoint.trim());
  if (!url || url.username || url.password || url.search || url.hash) return null;
  const isHere = ['localhost', '127.0.0.1', '[::1]'].includes(url.hostname);
  if (url.protocol !== 'https:' && !(url.protocol === 'http:' && isHere)) return null;
  url.pathname = `${url.pathname.replace(/\/+$/, '')}/statements`;
  return url;
}

/** What was entered as an address, for a sentence: on one line, and without a name and password in it. */
function plainAddress(entered: string): string {
  return entered
    .slice(0, LONGEST_ADDRESS)
    .replace(/[\p{Cc}\p{Surrogate}]+/gu, ' ')
    .replace(/\/\/.*@/, '//...@');
}

function shortened(text: string): string {
  return text.length > QUOTED_CHARS ? `${text.slice(0, QUOTED_CHARS)}...` : text;
}
