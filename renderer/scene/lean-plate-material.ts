import { Color, type DataTexture, ShaderMaterial, SRGBColorSpace, type Vector4 } from 'three';
import { TO_SCREEN } from './lean-colour.ts';
import { LIGHT_UNIFORMS, lightUniforms, PLATE_LIGHT, type PlateLight } from './plate-light.ts';
import { type PlateLook, plateUniforms } from './plate-look.ts';

const VERTEX = `
${LIGHT_UNIFORMS}
attribute float cut;
varying vec3 vPlate;
varying float vCut;
varying float vUp;
varying vec3 vLight;
void main() {
  vPlate = position;
  vCut = cut;
  vUp = normal.z;
  ${PLATE_LIGHT}
  // Products of screen values are close to screen values of products.
  vLight = pow(light, vec3(1.0 / 2.2));
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}`;

const FRAGMENT = `
uniform vec3 bareColour;
uniform sampler2D skinMap;
uniform sampler2D glowMap;
uniform vec4 hotBox;
uniform vec2 heatOrigin;
uniform vec2 heatSpan;
uniform vec2 plateSpan;
#ifdef AIR_GAP
uniform vec2 airGap;
#endif
#ifdef MAP_SHOWN
uniform sampler2D plateMap;
${TO_SCREEN}
#endif
varying vec3 vPlate;
varying float vCut;
varying float vUp;
varying vec3 vLight;
void main() {
  vec3 colour = bareColour;
  if (vUp > 0.5) {
    colour = mix(texture2D(skinMap, vPlate.xy / plateSpan).rgb, colour, clamp(vCut, 0.0, 1.0));
  } else {
    colour *= mix(0.8, 1.0, clamp(vCut, 0.0, 1.0));
    // Little light comes down into a kerf.
    if (abs(vUp) <= 0.5) colour *= mix(1.0, 0.6, clamp(vCut, 0.0, 1.0) * smoothstep(0.0, 1.5, -vPlate.z));
  }
#ifdef AIR_GAP
  // Between two plates there is air: on every wall a dark joint.
  if (abs(vUp) < 0.5 && -vPlate.z > airGap.x - 0.15 && -vPlate.z < airGap.y + 0.15) colour *= 0.38;
#endif
  colour *= vLight;
  // Only where some metal is hot at all is it asked how hot.
  if (vPlate.x > hotBox.x && vPlate.y > hotBox.y && vPlate.x < hotBox.z && vPlate.y < hotBox.w) {
    vec3 glow = texture2D(glowMap, (vPlate.xy - heatOrigin) / heatSpan).rgb;
    // Light adds up; screen values do so nearly as squares.
    colour = sqrt(colour * colour + glow * glow);
  }
#ifdef MAP_SHOWN
  vec4 mark = texture2D(plateMap, vPlate.xy / plateSpan);
  colour = mix(colour, toScreen(mark.rgb), mark.a * (vUp > 0.5 ? 1.0 : vUp > -0.5 ? 0.8 : 0.0));
#endif
  gl_FragColor = vec4(colour, 1.0);
}`;

/**
 * The plate as a renderer without a graphics card can draw it: light by the corner, one look into a picture by the pixel. `hotBox` is
 * what `paintGlow` keeps up.
 */
export function createLeanPlateMaterial(look: PlateLook, glow: DataTexture, hotBox: Vector4, light: PlateLight): ShaderMaterial {
  const { airGap, map } = look;
  const bare = new Color(look.bareColour).getRGB({ r: 0, g: 0, b: 0 }, SRGBColorSpace);
  return new ShaderMaterial({
    defines: { ...(airGap ? { AIR_GAP: '' } : {}), ...(map ? { MAP_SHOWN: '' } : {}) },
    uniforms: {
      ...lightUniforms(light),
      ...plateUniforms(look),
      bareColour: { value: new Color(bare.r, bare.g, bare.b) },
      glowMap: { value: glow },
      hotBox: { value: hotBox },
    },
    vertexShader: VERTEX,
    fragmentShader: FRAGMENT,
  });
}
