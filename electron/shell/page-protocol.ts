import type { PageFiles } from '../host/page-files.ts';
import { PAGE_HEADERS } from '../host/page-policy.ts';

export const PAGE_SCHEME = 'kerfhand';
export const PAGE_HOST = 'app';
export const PAGE_ADDRESS = `${PAGE_SCHEME}://${PAGE_HOST}/`;

/** Whether an address is of our own page. */
export function isPageAddress(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const url = new URL(address);
  return url.protocol === `${PAGE_SCHEME}:` && url.host === PAGE_HOST && url.username === '' && url.password === '';
}

/** Answers requests for kerfhand://app/... from the built page, with the same headers as the loopback address. */
export async function answerPageRequest(request: { url: string; method: string }, files: PageFiles): Promise<Response> {
  const refuse = (status: number, sentence: string) =>
    new Response(`${sentence}\n`, { status, headers: { ...PAGE_HEADERS, 'content-type': 'text/plain; charset=utf-8' } });
  if (!isPageAddress(request.url)) return refuse(403, 'Only the Kerfhand page is served here.');
  if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(405, 'Files of the page are only read.');
  const file = files.get(new URL(request.url).pathname);
  if (!file) return refuse(404, 'There is no such file of the page.');
  const body = request.method === 'HEAD' ? null : await file.read();
  return new Response(body, { headers: { ...PAGE_HEADERS, 'content-type': file.contentType } });
}
