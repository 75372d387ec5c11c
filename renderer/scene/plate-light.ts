import type { IUniform } from 'three';
import { type FixedLight, fixedLight } from './light-level.ts';

/** Light of the yard for a plate that works it out once a corner. */
export interface PlateLight {
  fixed: FixedLight;
  /** Level behind the lens, set in every frame. */
  level: IUniform<number>;
}

export function createPlateLight(theme: 'dark' | 'light'): PlateLight {
  return { fixed: fixedLight(theme), level: { value: 1 } };
}

export function lightUniforms({ fixed, level }: PlateLight): Record<string, IUniform> {
  return {
    sunAt: { value: fixed.sun },
    sunColour: { value: fixed.sunColour },
    bounceAt: { value: fixed.bounce },
    bounceColour: { value: fixed.bounceColour },
    skyColour: { value: fixed.skyColour },
    groundColour: { value: fixed.groundColour },
    lightLevel: level,
  };
}

export const LIGHT_UNIFORMS = `
uniform vec3 sunAt;
uniform vec3 sunColour;
uniform vec3 bounceAt;
uniform vec3 bounceColour;
uniform vec3 skyColour;
uniform vec3 groundColour;
uniform float lightLevel;
`;

/** Sets `light` to what falls on this corner, linear: the same sum as `lightOn`. */
export const PLATE_LIGHT = `
vec3 lightNormal = normalize(mat3(modelMatrix) * normal);
vec3 light = lightLevel * (sunColour * max(0.0, dot(lightNormal, sunAt)) + bounceColour * max(0.0, dot(lightNormal, bounceAt)) +
  mix(groundColour, skyColour, 0.5 + 0.5 * lightNormal.z));
`;
