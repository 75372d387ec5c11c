/** Deepest nesting of a request; scores of a run, which go deepest, stay well below it. */
export const PAYLOAD_DEPTH_LIMIT = 64;
/** Most values in one request; a run of an hour, which has the most, stays below a tenth of it. */
const MOST_VALUES = 1_000_000;

/**
 * What is wrong with a request whatever the call is, without an engine's own limits being reached; null = nothing. Values that a
 * shell hands over may hold themselves, or one value in many places: both come out as too deep or too many.
 */
export function payloadProblem(payload: unknown): string | null {
  let level: unknown[] = [payload];
  let values = 0;
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > PAYLOAD_DEPTH_LIMIT) return `it is nested deeper than ${PAYLOAD_DEPTH_LIMIT} levels`;
    const next: unknown[] = [];
    for (const value of level) {
      if (typeof value === 'string' && !value.isWellFormed()) return 'a text holds half a character, which cannot be kept';
      if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) continue;
      const inside = Array.isArray(value) ? value : Object.values(value);
      values += inside.length;
      if (values > MOST_VALUES) return `it holds more than ${MOST_VALUES} values`;
      for (const one of inside) next.push(one);
    }
    level = next;
  }
  return null;
}

/** The same for the nesting of JSON text, before it is parsed: an engine takes seconds over millions of brackets. */
export function isNestedTooDeep(json: string): boolean {
  let depth = 0;
  for (let at = 0; at < json.length; at++) {
    const code = json.charCodeAt(at);
    if (code === 0x22) at = endOfText(json, at);
    else if (code === 0x5b || code === 0x7b) depth++;
    else if (code === 0x5d || code === 0x7d) depth--;
    if (depth > PAYLOAD_DEPTH_LIMIT) return true;
  }
  return false;
}

/** Place of the double quote that ends the text which begins at `from`; the end of all where there is none. */
function endOfText(json: string, from: number): number {
  for (let at = json.indexOf('"', from + 1); at !== -1; at = json.indexOf('"', at + 1)) {
    let backslashes = 0;
    while (json.charCodeAt(at - 1 - backslashes) === 0x5c) backslashes++;
    if (backslashes % 2 === 0) return at;
  }
  return json.length;
}
