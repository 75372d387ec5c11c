import { isTextKey, say } from '../text/say.ts';

/** A measure in words; one of a newer core keeps the name it has there. */
export function measureName(measureId: string): string {
  const key = `measure.${measureId}`;
  return isTextKey(key) ? say(key) : measureId;
}
