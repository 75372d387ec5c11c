import type { IUniform, WebGLProgramParametersWithUniforms } from 'three';
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

const UNIFORMS = `
uniform vec3 sunAt;
uniform vec3 sunColour;
uniform vec3 bounceAt;
uniform vec3 bounceColour;
uniform vec3 skyColour;
uniform vec3 groundColour;
uniform float lightLevel;
varying vec3 vLight;
`;

const LIGHT = `
vec3 lightNormal = normalize(mat3(modelMatrix) * normal);
vLight = lightLevel * (sunColour * max(0.0, dot(lightNormal, sunAt)) + bounceColour * max(0.0, dot(lightNormal, bounceAt)) +
  mix(groundColour, skyColour, 0.5 + 0.5 * lightNormal.z));
`;

/** Gives an unlit material the light of the yard: the same sum as `lightOn`, and the glow that it has no place for. */
export function lightByVertex(shader: WebGLProgramParametersWithUniforms, { fixed, level }: PlateLight): void {
  Object.assign(shader.uniforms, {
    sunAt: { value: fixed.sun },
    sunColour: { value: fixed.sunColour },
    bounceAt: { value: fixed.bounce },
    bounceColour: { value: fixed.bounceColour },
    skyColour: { value: fixed.skyColour },
    groundColour: { value: fixed.groundColour },
    lightLevel: level,
  });
  shader.vertexShader = shader.vertexShader
    .replace('#include <common>', `#include <common>${UNIFORMS}`)
    .replace('#include <begin_vertex>', `#include <begin_vertex>${LIGHT}`);
  shader.fragmentShader = shader.fragmentShader.replace('#include <common>', '#include <common>\nvarying vec3 vLight;').replace(
    'vec3 outgoingLight = reflectedLight.indirectDiffuse;',
    `vec3 totalEmissiveRadiance = vec3(0.0);
#include <emissivemap_fragment>
vec3 outgoingLight = diffuseColor.rgb * vLight + totalEmissiveRadiance;`,
  );
}
