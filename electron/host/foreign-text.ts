/** Most characters of a foreign text in a sentence. */
const MOST = 30;

/** What somebody else wrote, for a sentence: short, and nothing in it that breaks a line or turns its direction. */
export function foreignText(text: unknown): string {
  const plain = String(text).replace(/[^\p{L}\p{N}\p{P}\p{S} ]/gu, '?');
  return plain.length > MOST ? `${plain.slice(0, MOST)}...` : plain;
}
