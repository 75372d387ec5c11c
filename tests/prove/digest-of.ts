import { createHash } from 'node:crypto';

/** SHA-256 of a value as JSON, in hex: names what a campaign keeps by all that it comes of. */
export function digestOf(value: unknown): string {
  return createHash('sha256').update(JSON.stringify(value)).digest('hex');
}
