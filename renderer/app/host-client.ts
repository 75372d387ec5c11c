import type { Answer, CallError, ErrorCode, KerfhandVerbs, Reply, Request, Verb } from '../../electron/contract.ts';
import { say } from '../text/say.ts';

declare global {
  interface Window {
    /** Put in place by the Electron shell; absent behind the loopback address. */
    readonly kerfhand?: KerfhandVerbs;
  }
}

/** A call that the host answered with a reason why not, or could not answer; `message` is a sentence for a person. */
export class HostError extends Error {
  readonly code: ErrorCode | 'unreachable';

  constructor(code: ErrorCode | 'unreachable', message: string) {
    super(message);
    this.name = 'HostError';
    this.code = code;
  }
}

function isAnswer(value: unknown): value is { ok: boolean; reply?: unknown; error?: CallError } {
  return typeof value === 'object' && value !== null && typeof (value as { ok?: unknown }).ok === 'boolean';
}

async function overLoopback<V extends Verb>(verb: V, request: Request<V>): Promise<Answer<V>> {
  let response: Response;
  try {
    response = await fetch(`/call/${verb}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(request),
    });
  } catch {
    throw new HostError('unreachable', say('app.unreachable'));
  }
  const answer: unknown = await response.json().catch(() => null);
  if (!isAnswer(answer)) throw new HostError('unreachable', say('app.no-reason', { status: response.status }));
  return answer as Answer<V>;
}

/** Calls the host by whichever way this page was opened. Throws HostError with the host's own sentence. */
export async function callHost<V extends Verb>(verb: V, request: Request<V>): Promise<Reply<V>> {
  const shell = window.kerfhand;
  const answer = shell
    ? await (shell[verb] as (request: Request<V>) => Promise<Answer<V>>)(request)
    : await overLoopback(verb, request);
  if (!answer.ok) throw new HostError(answer.error.code, answer.error.message);
  return answer.reply;
}
