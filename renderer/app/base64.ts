/** Bytes as base64 text with padding, in pieces small enough for one call of fromCharCode. */
export function base64FromBytes(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
}

export function bytesFromBase64(text: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(text), (character) => character.charCodeAt(0));
}

/** Float32 columns as little-endian bytes, whatever the machine. */
export function base64FromFloats(values: Float32Array): string {
  const view = new DataView(new ArrayBuffer(values.length * 4));
  values.forEach((value, at) => {
    view.setFloat32(at * 4, value, true);
  });
  return base64FromBytes(new Uint8Array(view.buffer));
}

export function floatsFromBase64(text: string): Float32Array {
  const bytes = bytesFromBase64(text);
  const view = new DataView(bytes.buffer);
  return Float32Array.from({ length: Math.floor(bytes.length / 4) }, (_, at) => view.getFloat32(at * 4, true));
}
