import { Color, Vector3 } from 'three';

/** How the light is seen now. Shared by all that is lit; changed in the frame loop by `Lights` alone. */
export interface LightLevel {
  /** Of the yard: 1 = as it is, less behind the lens. */
  value: number;
  /** Of the arc: 0 = out, 1 = on the metal. */
  glow: number;
  /** Of the yard while the arc burns, by the filter before the eyes. */
  readonly dimmed: number;
}

/** The filter that is worn where a drill does not ask which: the least that is allowed. */
const USUAL_SHADE = 8;
/** Behind it the yard goes this dim while the arc burns: far less than a real one, or a screen would show nothing but the arc. */
const DIMMED = 0.62;
/**
 * One shade number more lets through 10^(-3/7) of the light (shade = 1 + 7/3 log10 of 1/transmittance; EN 169, from memory). An eye
 * makes up for most of it; what it does not is a design default.
 */
const SEEN_OF_A_SHADE = 10 ** ((-3 / 7) * 0.35);
const DARKEST = 0.1;

/** How bright the yard is seen behind a filter of this shade; null = not asked. Too dark a one hides the line. */
export function dimmedBehind(shade: number | null): number {
  return Math.min(1, Math.max(DARKEST, DIMMED * SEEN_OF_A_SHADE ** ((shade ?? USUAL_SHADE) - USUAL_SHADE)));
}

/** The lens follows more slowly than the arc, 1/s. */
const DIM_RATE = 2.5;

/** One step of the lens after the arc's light: it follows the glow, so it turns no more often than that does. */
export function followLens(level: LightLevel, seconds: number, still: boolean): void {
  const wanted = 1 - (1 - level.dimmed) * level.glow;
  level.value += (wanted - level.value) * (still ? 1 : 1 - Math.exp(-Math.min(0.2, Math.max(0, seconds)) * DIM_RATE));
}

/** Light of the yard, evening and morning: what the lamps of the scene are given, and what the light tier works out by itself. */
export const YARD_LIGHT = {
  dark: { sky: 1.7, sun: 1.8, skyColour: '#c9d6d8', groundColour: '#3a3a34' },
  light: { sky: 2.1, sun: 2.3, skyColour: '#ffffff', groundColour: '#8b857a' },
} as const;
export const SUN_AT = [-120, -160, 300] as const;
/** Light thrown back by the ground, so that the underside is not black. */
export const BOUNCE = { at: [120, -220, -240], intensity: 1.1, colour: '#ffe2bf' } as const;

/** The lamps as plain figures, linear, already divided by pi as a matt surface does. */
export interface FixedLight {
  sun: Vector3;
  sunColour: Color;
  bounce: Vector3;
  bounceColour: Color;
  skyColour: Color;
  groundColour: Color;
}

export function fixedLight(theme: 'dark' | 'light'): FixedLight {
  const { sky, sun, skyColour, groundColour } = YARD_LIGHT[theme];
  return {
    sun: new Vector3(...SUN_AT).normalize(),
    sunColour: new Color(1, 1, 1).multiplyScalar(sun / Math.PI),
    bounce: new Vector3(...BOUNCE.at).normalize(),
    bounceColour: new Color(BOUNCE.colour).multiplyScalar(BOUNCE.intensity / Math.PI),
    skyColour: new Color(skyColour).multiplyScalar(sky / Math.PI),
    groundColour: new Color(groundColour).multiplyScalar(sky / Math.PI),
  };
}

/** Light that a matt white surface with this normal gives off: the same sum as the scene's own lamps make. */
export function lightOn(light: FixedLight, normal: Vector3, out: Color): Color {
  const sun = Math.max(0, normal.dot(light.sun));
  const bounce = Math.max(0, normal.dot(light.bounce));
  const up = 0.5 + 0.5 * normal.z;
  const channel = (name: 'r' | 'g' | 'b') =>
    sun * light.sunColour[name] +
    bounce * light.bounceColour[name] +
    up * light.skyColour[name] +
    (1 - up) * light.groundColour[name];
  return out.setRGB(channel('r'), channel('g'), channel('b'));
}
