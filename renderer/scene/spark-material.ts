import { CustomBlending, type IUniform, OneFactor, OneMinusSrcAlphaFactor, ShaderMaterial } from 'three';
import { TRAY_DEPTH_MM } from './fall-pose.ts';
import { GRAVITY_MM_PER_S2 } from './spark-pool.ts';

/** Share of its speed that a spark keeps when it strikes the floor: for the eye. */
const BOUNCE_LEAVES = 0.38;

/**
 * Draws every spark as a small ribbon that faces the eye, from where it is to where it was a moment ago. Its flight is worked out
 * in the shader, so a spark costs the page nothing after it was thrown. Metal from the underside is thin, straight and pale;
 * metal sprayed off the top is broad, round and red, and comes down again.
 */
const VERTEX = `
attribute vec3 start;
attribute vec3 speed;
attribute vec4 kind;
uniform float now;
uniform float pixelMm;
uniform float floorZ;
varying float vAge;
varying float vTop;
varying vec2 vAcross;

// Free fall to the floor of the tray, once more off it with what the impact leaves, then it lies where it came down.
vec3 place(float age) {
  float g = ${GRAVITY_MM_PER_S2.toFixed(1)};
  float above = start.z - floorZ;
  float hit = (speed.z + sqrt(max(0.0, speed.z * speed.z + 2.0 * g * above))) / g;
  float first = min(age, hit);
  vec3 at = start + speed * first + vec3(0.0, 0.0, -0.5 * g * first * first);
  float after = age - hit;
  if (after <= 0.0) return at;
  float up = ${BOUNCE_LEAVES.toFixed(2)} * (g * hit - speed.z);
  float second = min(after, 2.0 * up / g);
  return vec3(at.xy + ${BOUNCE_LEAVES.toFixed(2)} * speed.xy * second, floorZ + up * second - 0.5 * g * second * second);
}

void main() {
  float age = now - kind.x;
  vAge = age / max(kind.y, 0.001);
  vTop = kind.w;
  vAcross = position.xy * 2.0;
  vec3 head = place(age);
  float streak = kind.w > 0.5 ? 0.003 : 0.024;
  vec3 tail = place(max(0.0, age - streak));
  bool gone = vAge < 0.0 || vAge > 1.0 || kind.y <= 0.0 || (kind.w > 0.5 && head.z < -1.0);
  vec4 headView = modelViewMatrix * vec4(head, 1.0);
  vec4 tailView = modelViewMatrix * vec4(tail, 1.0);
  vec2 along = headView.xy - tailView.xy;
  float reach = length(along);
  along = reach > 0.0001 ? along / reach : vec2(1.0, 0.0);
  float width = max(kind.z, pixelMm * -headView.z * (kind.w > 0.5 ? 2.2 : 1.1));
  vec4 middle = mix(tailView, headView, position.x + 0.5);
  middle.xy += vec2(-along.y, along.x) * position.y * width + along * (position.x * width);
  gl_Position = gone ? vec4(2.0, 2.0, 2.0, 1.0) : projectionMatrix * middle;
}`;

const FRAGMENT = `
varying float vAge;
varying float vTop;
varying vec2 vAcross;

void main() {
  float edge = vTop > 0.5 ? 1.0 - dot(vAcross, vAcross) : 1.0 - vAcross.y * vAcross.y;
  if (edge <= 0.0) discard;
  vec3 young = vTop > 0.5 ? vec3(1.0, 0.36, 0.1) : vec3(1.0, 0.93, 0.72);
  vec3 old = vTop > 0.5 ? vec3(0.45, 0.06, 0.02) : vec3(0.75, 0.16, 0.03);
  float fade = 1.0 - vAge * vAge;
  float cover = vTop > 0.5 ? smoothstep(0.0, 0.35, edge) * fade : 0.0;
  vec3 shine = mix(young, old, sqrt(vAge)) * fade * (vTop > 0.5 ? cover : 0.8 * edge);
  gl_FragColor = vec4(shine, cover);
}`;

export interface SparkUniforms extends Record<string, IUniform<number>> {
  now: IUniform<number>;
  /** Size of one pixel at distance 1, so that no spark is thinner than the screen can show. */
  pixelMm: IUniform<number>;
  /** Height of the floor of the tray, mm. */
  floorZ: IUniform<number>;
}

export function createSparkMaterial(thicknessMm: number): ShaderMaterial & { uniforms: SparkUniforms } {
  const uniforms: SparkUniforms = {
    now: { value: 0 },
    pixelMm: { value: 0.001 },
    floorZ: { value: -thicknessMm - TRAY_DEPTH_MM },
  };
  return new ShaderMaterial({
    uniforms,
    vertexShader: VERTEX,
    fragmentShader: FRAGMENT,
    // Premultiplied: light adds to what is behind it, drops of metal cover it.
    blending: CustomBlending,
    blendSrc: OneFactor,
    blendDst: OneMinusSrcAlphaFactor,
    depthWrite: false,
    transparent: true,
  }) as ShaderMaterial & { uniforms: SparkUniforms };
}
