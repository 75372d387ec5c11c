/**
 * JSON text that is the same, byte for byte, for the same value: keys in order of their UTF-16 units, no space, numbers as
 * ECMAScript writes them (RFC 8785, JSON Canonicalization Scheme). What is signed or digested is the UTF-8 of this text.
 * @throws RangeError on what JSON cannot carry: numbers that are not finite, lone surrogates, undefined, functions, cycles
 */
export function canonicalJson(value: unknown): string {
  return write(value, []);
}

function write(value: unknown, above: readonly object[]): string {
  switch (typeof value) {
    case 'string':
      if (!value.isWellFormed()) throw new RangeError('A text holds half a character, which cannot be kept.');
      return JSON.stringify(value);
    case 'boolean':
      return String(value);
    case 'number':
      if (!Number.isFinite(value)) throw new RangeError(`The number ${value} cannot be written as JSON.`);
      return JSON.stringify(value);
    case 'object': {
      if (value === null) return 'null';
      if (above.includes(value)) throw new RangeError('A value that holds itself cannot be written as JSON.');
      const here = [...above, value];
      if (Array.isArray(value)) return `[${Array.from(value, (item: unknown) => write(item, here)).join(',')}]`;
      const entries = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
      return `{${entries.map(([key, item]) => `${write(key, here)}:${write(item, here)}`).join(',')}}`;
    }
    default:
      throw new RangeError(`A value of type ${typeof value} cannot be written as JSON.`);
  }
}
