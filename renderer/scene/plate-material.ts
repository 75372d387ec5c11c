import {
  DataTexture,
  LinearFilter,
  LinearSRGBColorSpace,
  type Material,
  MeshLambertMaterial,
  MeshStandardMaterial,
  NearestFilter,
  RedFormat,
  RGBAFormat,
  UnsignedByteType,
  type WebGLProgramParametersWithUniforms,
} from 'three';
import { DRAG_LINES } from './drag-marks.ts';
import { GLOW_STEPS, glowRampBytes } from './glow-ramp.ts';
import { GLOW_STRENGTH } from './glow-texture.ts';
import type { PlateField } from './plate-field.ts';
import { type PlateLook, plateUniforms } from './plate-look.ts';

/** Heat of the whole plate as a texture; bytes are those of the field, so an upload is all that a change costs. */
export function createHeatTexture(field: PlateField): DataTexture {
  const texture = new DataTexture(
    field.heat as Uint8Array<ArrayBuffer>,
    field.heatWidth,
    field.heatHeight,
    RedFormat,
    UnsignedByteType,
  );
  texture.magFilter = LinearFilter;
  texture.minFilter = LinearFilter;
  texture.colorSpace = LinearSRGBColorSpace;
  texture.unpackAlignment = 1;
  texture.needsUpdate = true;
  return texture;
}

let rampBytes: Uint8Array | null = null;

/** One for each material, over the same bytes: a texture that outlived its renderer would keep hold of that and its canvas. */
function createGlowRamp(): DataTexture {
  rampBytes ??= glowRampBytes();
  const ramp = new DataTexture(rampBytes as Uint8Array<ArrayBuffer>, GLOW_STEPS, 1, RGBAFormat, UnsignedByteType);
  ramp.magFilter = LinearFilter;
  ramp.minFilter = NearestFilter;
  ramp.colorSpace = LinearSRGBColorSpace;
  ramp.needsUpdate = true;
  return ramp;
}

/**
 * Surface of the plate: skin picture on the upper face, bare metal where the arc has been, and light given off by heat. The added
 * shader lines work in the plate frame, so a piece that has fallen keeps its own heat and marks. What it made itself goes with it.
 */
export function createPlateMaterial(look: PlateLook, rich: boolean, heat: DataTexture, marks: DataTexture): Material {
  const { field, bareColour } = look;
  const mapped = look.map !== null;
  const ramp = createGlowRamp();
  const material = rich
    ? new MeshStandardMaterial({ color: bareColour, roughness: 0.52, metalness: 0.55 })
    : new MeshLambertMaterial({ color: bareColour });

  material.addEventListener('dispose', () => ramp.dispose());
  if (mapped) material.defines = { ...material.defines, MAP_SHOWN: '' };

  material.onBeforeCompile = (shader: WebGLProgramParametersWithUniforms) => {
    Object.assign(shader.uniforms, {
      ...plateUniforms(look),
      heatMap: { value: heat },
      glowRamp: { value: ramp },
      dragMarks: { value: marks },
      plateThickness: { value: field.thicknessMm },
    });
    shader.vertexShader = shader.vertexShader
      .replace(
        '#include <common>',
        '#include <common>\nattribute float cut;\nvarying vec3 vPlate;\nvarying float vCut;\nvarying float vUp;',
      )
      .replace('#include <begin_vertex>', '#include <begin_vertex>\nvPlate = position;\nvCut = cut;\nvUp = normal.z;');
    shader.fragmentShader = shader.fragmentShader
      .replace(
        '#include <common>',
        `#include <common>
uniform sampler2D heatMap;
uniform sampler2D glowRamp;
uniform sampler2D skinMap;
uniform vec2 heatOrigin;
uniform vec2 heatSpan;
uniform vec2 plateSpan;
uniform vec2 airGap;
uniform sampler2D plateMap;
uniform sampler2D dragMarks;
uniform float plateThickness;
varying vec3 vPlate;
varying float vCut;
varying float vUp;`,
      )
      .replace(
        '#include <color_fragment>',
        `#include <color_fragment>
vec3 skinColour = vUp > 0.5 ? texture2D(skinMap, vPlate.xy / plateSpan).rgb : diffuseColor.rgb * 0.62;
diffuseColor.rgb = mix(skinColour, diffuseColor.rgb, clamp(vCut, 0.0, 1.0));
${DRAG_LINES}
// Between two plates there is air: on every wall a dark joint.
if (abs(vUp) < 0.5 && -vPlate.z > airGap.x - 0.15 && -vPlate.z < airGap.y + 0.15) diffuseColor.rgb *= 0.12;`,
      )
      .replace(
        '#include <emissivemap_fragment>',
        `#include <emissivemap_fragment>
float heatShare = texture2D(heatMap, (vPlate.xy - heatOrigin) / heatSpan).r;
totalEmissiveRadiance += texture2D(glowRamp, vec2(heatShare, 0.5)).rgb * ${GLOW_STRENGTH.toFixed(2)};`,
      )
      .replace(
        '#include <opaque_fragment>',
        // Unlit, so that a level has the same colour everywhere; a little of the light is kept on the faces of the cut.
        `#ifdef MAP_SHOWN
vec4 mark = texture2D(plateMap, vPlate.xy / plateSpan);
outgoingLight = mix(outgoingLight, mark.rgb, mark.a * (vUp > 0.5 ? 1.0 : vUp > -0.5 ? 0.8 : 0.0));
#endif
#include <opaque_fragment>`,
      );
  };
  material.customProgramCacheKey = () => `plate-${rich ? 'rich' : 'matt'}-${mapped ? 'mapped' : 'plain'}`;
  return material;
}
