/** A level of sound, 0 to 1, in a word. */
export function levelWord(level: number): 'silent' | 'low' | 'middle' | 'high' {
  if (level <= 0) return 'silent';
  if (level <= 0.4) return 'low';
  return level <= 0.7 ? 'middle' : 'high';
}
