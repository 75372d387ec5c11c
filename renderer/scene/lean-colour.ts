/**
 * Without a graphics card the dearest part of a pixel is the step from linear light to the screen's own values (IEC 61966-2-1): a
 * power for each channel. What is drawn lean does it once a corner.
 */
export const TO_SCREEN = `
vec3 toScreen(vec3 light) {
  vec3 c = clamp(light, 0.0, 1.0);
  return mix(1.055 * pow(c, vec3(1.0 / 2.4)) - 0.055, 12.92 * c, vec3(lessThanEqual(c, vec3(0.0031308))));
}
`;

/** The same step for one value, 0 to 1. */
export function toScreen(light: number): number {
  const c = Math.min(1, Math.max(0, light));
  return c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055;
}
