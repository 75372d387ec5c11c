import { isTextKey, say } from '../text/say.ts';

/** A technique in words; a drill from elsewhere may carry a label of its own. */
export function techniqueName(technique: string): string {
  const key = `technique.${technique}`;
  return isTextKey(key) ? say(key) : technique;
}
