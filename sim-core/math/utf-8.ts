/** The text as UTF-8 bytes (RFC 3629). A lone surrogate, which UTF-8 cannot hold, becomes U+FFFD, as in every browser. */
export function utf8Bytes(text: string): Uint8Array {
  return asciiBytes(text) ?? anyBytes(text);
}

/** Files are mostly of one byte a character, and megabytes long: a third of the memory, and half of the time. */
function asciiBytes(text: string): Uint8Array | null {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code >= 0x80) return null;
    bytes[i] = code;
  }
  return bytes;
}

function anyBytes(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length * 3);
  let end = 0;
  for (let i = 0; i < text.length; i++) {
    let code = text.charCodeAt(i);
    if (code >= 0xd800 && code < 0xe000) {
      const low = code < 0xdc00 ? text.charCodeAt(i + 1) : Number.NaN;
      if (low >= 0xdc00 && low < 0xe000) {
        code = 0x10000 + ((code - 0xd800) << 10) + (low - 0xdc00);
        i++;
      } else code = 0xfffd;
    }
    if (code < 0x80) bytes[end++] = code;
    else if (code < 0x800) {
      bytes[end++] = 0xc0 | (code >> 6);
      bytes[end++] = 0x80 | (code & 63);
    } else if (code < 0x10000) {
      bytes[end++] = 0xe0 | (code >> 12);
      bytes[end++] = 0x80 | ((code >> 6) & 63);
      bytes[end++] = 0x80 | (code & 63);
    } else {
      bytes[end++] = 0xf0 | (code >> 18);
      bytes[end++] = 0x80 | ((code >> 12) & 63);
      bytes[end++] = 0x80 | ((code >> 6) & 63);
      bytes[end++] = 0x80 | (code & 63);
    }
  }
  return bytes.slice(0, end);
}
