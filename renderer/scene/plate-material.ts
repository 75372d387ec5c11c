import {
  CanvasTexture,
  DataTexture,
  LinearFilter,
  LinearSRGBColorSpace,
  type Material,
  MeshLambertMaterial,
  MeshStandardMaterial,
  NearestFilter,
  RedFormat,
  RGBAFormat,
  SRGBColorSpace,
  type Texture,
  UnsignedByteType,
  Vector2,
  type WebGLProgramParametersWithUniforms,
} from 'three';
import { GLOW_STEPS, glowRampBytes } from './glow-ramp.ts';
import type { PlateField } from './plate-field.ts';

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

let ramp: DataTexture | null = null;

function glowRamp(): DataTexture {
  if (ramp === null) {
    ramp = new DataTexture(glowRampBytes() as Uint8Array<ArrayBuffer>, GLOW_STEPS, 1, RGBAFormat, UnsignedByteType);
    ramp.magFilter = LinearFilter;
    ramp.minFilter = NearestFilter;
    ramp.colorSpace = LinearSRGBColorSpace;
    ramp.needsUpdate = true;
  }
  return ramp;
}

/** Upper face of the plate as a picture: rolled skin and the marked line. */
export function createSkinTexture(canvas: HTMLCanvasElement): CanvasTexture {
  const texture = new CanvasTexture(canvas);
  texture.colorSpace = SRGBColorSpace;
  texture.anisotropy = 4;
  return texture;
}

/** A map laid over the upper face and the faces of the cut. Both values may change while the material stands. */
export interface PlateMap {
  picture: { value: Texture };
  /** 1 = shown, 0 = not. */
  shown: { value: number };
}

export function createPlateMap(): PlateMap {
  return { picture: { value: clearPicture() }, shown: { value: 0 } };
}

/** A picture that is there and shows nothing: a sampler without any would be complained of. */
function clearPicture(): Texture {
  const texture = new DataTexture(new Uint8Array(4), 1, 1);
  texture.needsUpdate = true;
  return texture;
}

/** Shows a picture of the plate as its map, or none. */
export function showOnPlate(map: PlateMap, canvas: HTMLCanvasElement | null): void {
  map.picture.value.dispose();
  map.picture.value = canvas ? createSkinTexture(canvas) : clearPicture();
  map.shown.value = canvas ? 1 : 0;
}

/**
 * Surface of the plate: skin picture on the upper face, bare metal where the arc has been, and light given off by heat. The added
 * shader lines work in the plate frame, so a piece that has fallen keeps its own heat and marks.
 */
export function createPlateMaterial(
  field: PlateField,
  lengthMm: number,
  widthMm: number,
  heat: DataTexture,
  skin: CanvasTexture,
  rich: boolean,
  bareColour: string,
  map: PlateMap,
  airGap: { fromMm: number; toMm: number } | null,
): Material {
  const material = rich
    ? new MeshStandardMaterial({ color: bareColour, roughness: 0.52, metalness: 0.55 })
    : new MeshLambertMaterial({ color: bareColour });
  const { grid } = field;
  const heatSpan = new Vector2(grid.tilesX * grid.tileCells * grid.cellMm, grid.tilesY * grid.tileCells * grid.cellMm);

  material.onBeforeCompile = (shader: WebGLProgramParametersWithUniforms) => {
    Object.assign(shader.uniforms, {
      heatMap: { value: heat },
      glowRamp: { value: glowRamp() },
      skinMap: { value: skin },
      heatOrigin: { value: new Vector2(grid.x0Mm, grid.y0Mm) },
      heatSpan: { value: heatSpan },
      plateSpan: { value: new Vector2(lengthMm, widthMm) },
      // Without a gap: a band of no height, far below.
      airGap: { value: new Vector2(airGap?.fromMm ?? 1e6, airGap?.toMm ?? 1e6) },
      plateMap: map.picture,
      plateMapShown: map.shown,
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
uniform float plateMapShown;
varying vec3 vPlate;
varying float vCut;
varying float vUp;`,
      )
      .replace(
        '#include <color_fragment>',
        `#include <color_fragment>
vec3 skinColour = vUp > 0.5 ? texture2D(skinMap, vPlate.xy / plateSpan).rgb : diffuseColor.rgb * 0.62;
diffuseColor.rgb = mix(skinColour, diffuseColor.rgb, clamp(vCut, 0.0, 1.0));
// Between two plates there is air: on every wall a dark joint.
if (abs(vUp) < 0.5 && -vPlate.z > airGap.x - 0.15 && -vPlate.z < airGap.y + 0.15) diffuseColor.rgb *= 0.12;`,
      )
      .replace(
        '#include <emissivemap_fragment>',
        `#include <emissivemap_fragment>
float heatShare = texture2D(heatMap, (vPlate.xy - heatOrigin) / heatSpan).r;
totalEmissiveRadiance += texture2D(glowRamp, vec2(heatShare, 0.5)).rgb * 1.25;`,
      )
      .replace(
        '#include <opaque_fragment>',
        // Unlit, so that a level has the same colour everywhere; a little of the light is kept on the faces of the cut.
        `vec4 mark = texture2D(plateMap, vPlate.xy / plateSpan);
outgoingLight = mix(outgoingLight, mark.rgb, mark.a * plateMapShown * (vUp > 0.5 ? 1.0 : vUp > -0.5 ? 0.8 : 0.0));
#include <opaque_fragment>`,
      );
  };
  material.customProgramCacheKey = () => `plate-${rich ? 'rich' : 'plain'}`;
  return material;
}
