import { type IUniform, ShaderMaterial } from 'three';
import { TO_SCREEN } from './lean-colour.ts';

export type LitMaterial = ShaderMaterial & { uniforms: { level: IUniform<number> } };

/** For shapes whose corners carry the light of the yard already, linear: all that is left to do is the level of that light. */
export function createLitMaterial(): LitMaterial {
  return new ShaderMaterial({
    uniforms: { level: { value: 1 } },
    vertexShader: `
${TO_SCREEN}
attribute vec3 color;
uniform float level;
varying vec3 vColour;
void main() {
  vColour = toScreen(color * level);
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}`,
    fragmentShader: `
varying vec3 vColour;
void main() {
  gl_FragColor = vec4(vColour, 1.0);
}`,
  }) as LitMaterial;
}
