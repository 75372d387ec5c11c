import {
  CanvasTexture,
  DataTexture,
  LinearFilter,
  LinearMipmapNearestFilter,
  LinearSRGBColorSpace,
  type Material,
  MeshBasicMaterial,
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
import { DRAG_LINES } from './drag-marks.ts';
import { GLOW_STEPS, glowRampBytes } from './glow-ramp.ts';
import type { PlateField } from './plate-field.ts';
import { lightByVertex, type PlateLight } from './plate-light.ts';
import type { Tier } from './quality-tiers.ts';

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

/** Glow of the whole plate already in its colours: for a renderer to which every look into a picture is dear. */
export function createGlowTexture(field: PlateField): DataTexture {
  const texture = new DataTexture(
    new Uint8Array(field.heat.length * 4),
    field.heatWidth,
    field.heatHeight,
    RGBAFormat,
    UnsignedByteType,
  );
  texture.magFilter = LinearFilter;
  texture.minFilter = LinearFilter;
  texture.colorSpace = LinearSRGBColorSpace;
  paintGlow(texture, field);
  return texture;
}

/** Brings a glow texture up to the field's heat. */
export function paintGlow(texture: DataTexture, field: PlateField): void {
  const colours = glowRamp().image.data as Uint8Array;
  const into = texture.image.data as Uint8Array;
  for (let n = 0; n < field.heat.length; n += 1) {
    const from = (field.heat[n] as number) * 4;
    into[n * 4] = colours[from] as number;
    into[n * 4 + 1] = colours[from + 1] as number;
    into[n * 4 + 2] = colours[from + 2] as number;
  }
  texture.needsUpdate = true;
}

/** Upper face of the plate as a picture: rolled skin and the marked line. */
export function createSkinTexture(canvas: HTMLCanvasElement, lean = false): CanvasTexture {
  const texture = new CanvasTexture(canvas);
  texture.colorSpace = SRGBColorSpace;
  // Sharp at a slant costs a renderer without a graphics card four times as much.
  texture.anisotropy = lean ? 1 : 4;
  if (lean) texture.minFilter = LinearMipmapNearestFilter;
  return texture;
}

/** A map laid over the upper face and the faces of the cut. It may change while the material stands. */
export interface PlateMap {
  picture: { value: Texture };
}

export function createPlateMap(): PlateMap {
  return { picture: { value: clearPicture() } };
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
  surfaces: Tier['surfaces'],
  light: PlateLight,
  bareColour: string,
  map: PlateMap,
  mapped: boolean,
  airGap: { fromMm: number; toMm: number } | null,
  marks: DataTexture | null,
): Material {
  const material =
    surfaces === 'rich'
      ? new MeshStandardMaterial({ color: bareColour, roughness: 0.52, metalness: 0.55 })
      : surfaces === 'matt'
        ? new MeshLambertMaterial({ color: bareColour })
        : new MeshBasicMaterial({ color: bareColour });
  const lean = surfaces === 'lean';
  const { grid } = field;
  const heatSpan = new Vector2(grid.tilesX * grid.tileCells * grid.cellMm, grid.tilesY * grid.tileCells * grid.cellMm);

  material.defines = {
    ...material.defines,
    ...(mapped ? { MAP_SHOWN: '' } : {}),
    ...(lean ? { GLOW_IN_MAP: '' } : {}),
    ...(marks ? { DRAG_LINES: '' } : {}),
  };

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
      dragMarks: { value: marks },
      plateThickness: { value: field.thicknessMm },
    });
    if (lean) lightByVertex(shader, light);
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
#ifdef DRAG_LINES
uniform sampler2D dragMarks;
uniform float plateThickness;
#endif
varying vec3 vPlate;
varying float vCut;
varying float vUp;`,
      )
      .replace(
        '#include <color_fragment>',
        `#include <color_fragment>
vec3 skinColour = vUp > 0.5 ? texture2D(skinMap, vPlate.xy / plateSpan).rgb : diffuseColor.rgb * 0.62;
diffuseColor.rgb = mix(skinColour, diffuseColor.rgb, clamp(vCut, 0.0, 1.0));
#ifdef DRAG_LINES
${DRAG_LINES}
#endif
// Between two plates there is air: on every wall a dark joint.
if (abs(vUp) < 0.5 && -vPlate.z > airGap.x - 0.15 && -vPlate.z < airGap.y + 0.15) diffuseColor.rgb *= 0.12;`,
      )
      .replace(
        '#include <emissivemap_fragment>',
        `#include <emissivemap_fragment>
#ifdef GLOW_IN_MAP
totalEmissiveRadiance += texture2D(heatMap, (vPlate.xy - heatOrigin) / heatSpan).rgb * 1.25;
#else
float heatShare = texture2D(heatMap, (vPlate.xy - heatOrigin) / heatSpan).r;
totalEmissiveRadiance += texture2D(glowRamp, vec2(heatShare, 0.5)).rgb * 1.25;
#endif`,
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
  material.customProgramCacheKey = () => `plate-${surfaces}-${mapped ? 'mapped' : 'plain'}`;
  return material;
}
