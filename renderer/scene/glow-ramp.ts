/**
 * Colour of hot metal from its temperature. Planck's law is summed over the visible band against the CIE 1931 observer in the
 * analytic fit of Wyman, Sloan and Shirley (J. Computer Graphics Techniques 2 (2013) no. 2, table 1 and eq. 4; from memory), then
 * turned to linear sRGB (IEC 61966-2-1). Brightness is compressed so that both dull red and yellow-white can be seen.
 */
export interface LinearColour {
  r: number;
  g: number;
  b: number;
}

/** The ramp covers this range; one step is what an 8-bit heat texture can tell apart. */
export const GLOW_LOW_C = 0;
export const GLOW_HIGH_C = 2040;
export const GLOW_STEPS = 256;

const SECOND_RADIATION_NM_K = 1.438777e7;
const KELVIN = 273.15;
/** Below this metal shows no glow in a lit room. */
const FIRST_GLOW_C = 480;
/** The temperature whose glow is drawn at full brightness. */
const FULL_GLOW_C = 1500;
const COMPRESSION = 0.24;

function lobe(nm: number, centre: number, below: number, above: number): number {
  const t = (nm - centre) * (nm < centre ? below : above);
  return Math.exp(-0.5 * t * t);
}

function observer(nm: number): [number, number, number] {
  const x =
    0.362 * lobe(nm, 442, 0.0624, 0.0374) + 1.056 * lobe(nm, 599.8, 0.0264, 0.0323) - 0.065 * lobe(nm, 501.1, 0.049, 0.0382);
  const y = 0.821 * lobe(nm, 568.8, 0.0213, 0.0247) + 0.286 * lobe(nm, 530.9, 0.0613, 0.0322);
  const z = 1.217 * lobe(nm, 437, 0.0845, 0.0278) + 0.681 * lobe(nm, 459, 0.0385, 0.0725);
  return [x, y, z];
}

/** Tristimulus values of a black body, on one common scale. */
function tristimulus(temperatureC: number): [number, number, number] {
  const kelvin = temperatureC + KELVIN;
  let x = 0;
  let y = 0;
  let z = 0;
  for (let nm = 380; nm <= 780; nm += 10) {
    const power = nm ** -5 / (Math.exp(SECOND_RADIATION_NM_K / (nm * kelvin)) - 1);
    const [ox, oy, oz] = observer(nm);
    x += power * ox;
    y += power * oy;
    z += power * oz;
  }
  return [x, y, z];
}

/** Light given off by metal at a temperature: black when cold, dull red from about 500, orange at 900, yellow-white when molten. */
export function glowColour(temperatureC: number): LinearColour {
  if (temperatureC <= FIRST_GLOW_C) return { r: 0, g: 0, b: 0 };
  const [x, y, z] = tristimulus(temperatureC);
  const full = tristimulus(FULL_GLOW_C)[1];
  const rise = Math.min(1, (temperatureC - FIRST_GLOW_C) / 120);
  const brightness = (y / full) ** COMPRESSION * rise;
  const r = Math.max(0, 3.2406 * x - 1.5372 * y - 0.4986 * z);
  const g = Math.max(0, -0.9689 * x + 1.8758 * y + 0.0415 * z);
  const b = Math.max(0, 0.0557 * x - 0.204 * y + 1.057 * z);
  const strongest = Math.max(r, g, b);
  const scale = brightness / strongest;
  return { r: r * scale, g: g * scale, b: b * scale };
}

/** The ramp as RGBA bytes, linear, one texel a step from GLOW_LOW_C to GLOW_HIGH_C. */
export function glowRampBytes(): Uint8Array {
  const bytes = new Uint8Array(GLOW_STEPS * 4);
  for (let step = 0; step < GLOW_STEPS; step += 1) {
    const colour = glowColour(GLOW_LOW_C + ((GLOW_HIGH_C - GLOW_LOW_C) * step) / (GLOW_STEPS - 1));
    bytes.set(
      [colour.r * 255, colour.g * 255, colour.b * 255, 255].map((v) => Math.min(255, Math.round(v))),
      step * 4,
    );
  }
  return bytes;
}

/** A temperature as the byte that picks its colour from the ramp. */
export function glowByte(temperatureC: number): number {
  const share = (temperatureC - GLOW_LOW_C) / (GLOW_HIGH_C - GLOW_LOW_C);
  return share <= 0 ? 0 : share >= 1 ? 255 : Math.round(share * 255);
}
