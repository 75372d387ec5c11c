/** Base64 with padding, RFC 4648 section 4. The language has none of its own, and the core knows neither page nor Node. */
const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Bytes taken at once, a multiple of three: keeps the pieces that are joined few and short enough for the stack. */
const CHUNK = 12288;

export function toBase64(bytes: Uint8Array): string {
  const codes = new Uint8Array((CHUNK / 3) * 4);
  let text = '';
  for (let from = 0; from < bytes.length; from += CHUNK) {
    const to = from + CHUNK < bytes.length ? from + CHUNK : bytes.length;
    let end = 0;
    for (let i = from; i < to; i += 3) {
      const a = bytes[i]!;
      const b = i + 1 < to ? bytes[i + 1]! : 0;
      const c = i + 2 < to ? bytes[i + 2]! : 0;
      codes[end++] = ALPHABET.charCodeAt(a >> 2);
      codes[end++] = ALPHABET.charCodeAt(((a & 3) << 4) | (b >> 4));
      codes[end++] = i + 1 < to ? ALPHABET.charCodeAt(((b & 15) << 2) | (c >> 6)) : 0x3d;
      codes[end++] = i + 2 < to ? ALPHABET.charCodeAt(c & 63) : 0x3d;
    }
    text += String.fromCharCode(...codes.subarray(0, end));
  }
  return text;
}

/** Inverse of `toBase64`. Throws RangeError on anything that `toBase64` does not write, so that bytes and text stand one to one. */
export function fromBase64(text: string): Uint8Array {
  if (text.length % 4 !== 0) throw new RangeError('The base64 text is not a multiple of four characters long.');
  const padding = text.endsWith('==') ? 2 : text.endsWith('=') ? 1 : 0;
  const bytes = new Uint8Array((text.length / 4) * 3 - padding);
  let end = 0;
  for (let i = 0; i < text.length; i += 4) {
    const last = i + 4 === text.length;
    const a = sextetAt(text, i);
    const b = sextetAt(text, i + 1);
    const c = last && padding === 2 ? 0 : sextetAt(text, i + 2);
    const d = last && padding > 0 ? 0 : sextetAt(text, i + 3);
    const word = (a << 18) | (b << 12) | (c << 6) | d;
    if (last && ((padding === 2 && (b & 15) !== 0) || (padding === 1 && (c & 3) !== 0))) {
      throw new RangeError('The base64 text ends in bits that belong to no byte.');
    }
    if (end < bytes.length) bytes[end++] = word >> 16;
    if (end < bytes.length) bytes[end++] = (word >> 8) & 255;
    if (end < bytes.length) bytes[end++] = word & 255;
  }
  return bytes;
}

function sextetAt(text: string, at: number): number {
  const code = text.charCodeAt(at);
  if (code >= 65 && code <= 90) return code - 65;
  if (code >= 97 && code <= 122) return code - 71;
  if (code >= 48 && code <= 57) return code + 4;
  if (code === 43) return 62;
  if (code === 47) return 63;
  throw new RangeError(`Character ${at + 1} of the base64 text is not one of its alphabet.`);
}
