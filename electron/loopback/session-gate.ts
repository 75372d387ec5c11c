import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

/**
 * Who may talk to the loopback host: only a browser that opened the address with the one-time token, from pages of this very
 * origin. Any other program or web page on the machine can reach the port; none of them gets past here.
 */
export class SessionGate {
  readonly origin: string;
  readonly #authority: string;
  readonly #cookieName: string;
  readonly #session = randomBytes(32).toString('base64url');
  #token: string | null = randomBytes(32).toString('base64url');

  constructor(port: number) {
    this.#authority = `127.0.0.1:${port}`;
    this.origin = `http://${this.#authority}`;
    // Cookies are shared by all ports of an address, so the name carries the port.
    this.#cookieName = `kerfhand-${port}`;
  }

  /** The address that opens the session, once. */
  get address(): string {
    return `${this.origin}/?token=${this.#token ?? ''}`;
  }

  /** Why a request cannot be from our page, or null. Guards against other sites and against names made to point here. */
  whyForeign(request: IncomingMessage): string | null {
    if (request.headers.host !== this.#authority) return `This is only answered at ${this.origin}, not under another name.`;
    const { origin } = request.headers;
    if (origin !== undefined && origin !== this.origin) return 'Pages of other sites are not answered here.';
    if (origin === undefined && request.method !== 'GET' && request.method !== 'HEAD')
      return 'A call must come from the Kerfhand page.';
    const site = request.headers['sec-fetch-site'];
    if (site !== undefined && site !== 'same-origin' && site !== 'none') return 'Pages of other sites are not answered here.';
    return null;
  }

  /** The cookie that stands for the session, in exchange for the token; null for a wrong or a used token. */
  redeem(token: string): string | null {
    if (this.#token === null || !sameText(token, this.#token)) return null;
    this.#token = null;
    return `${this.#cookieName}=${this.#session}; Path=/; HttpOnly; SameSite=Strict`;
  }

  hasSession(request: IncomingMessage): boolean {
    const pairs = (request.headers.cookie ?? '').split(';').map((pair) => pair.trim().split('='));
    return pairs.some(([name, value]) => name === this.#cookieName && value !== undefined && sameText(value, this.#session));
  }
}

/** Compares in a time that tells nothing about where two texts differ. */
function sameText(a: string, b: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(a), digest(b));
}
