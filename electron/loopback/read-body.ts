import type { IncomingMessage } from 'node:http';

export type Body = { ok: true; text: string } | { ok: false; status: 400 | 413; sentence: string };

/** Reads a request's body as UTF-8 text, never holding more than `limitBytes` of it. Time is bounded by the server. */
export async function readBody(request: IncomingMessage, limitBytes: number): Promise<Body> {
  const tooLarge: Body = { ok: false, status: 413, sentence: `The request is larger than ${limitBytes} bytes and was not read.` };
  if (Number(request.headers['content-length'] ?? 0) > limitBytes) return tooLarge;
  const parts: Buffer[] = [];
  let bytes = 0;
  for await (const part of request as AsyncIterable<Buffer>) {
    bytes += part.length;
    if (bytes > limitBytes) return tooLarge;
    parts.push(part);
  }
  try {
    return { ok: true, text: new TextDecoder('utf-8', { fatal: true }).decode(Buffer.concat(parts)) };
  } catch {
    return { ok: false, status: 400, sentence: 'The request is not UTF-8 text.' };
  }
}
