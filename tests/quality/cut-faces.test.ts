// Measuring on faces that are known exactly. Catches a lean with the wrong sign or over the wrong length, widths of the wrong
// layer, a kerf on the wrong side of its line, and figures where there is no face.
import { expect, test } from 'vitest';
import { pathGeometry } from '../../sim-core/drill/path-geometry.ts';
import { readFaces } from '../../sim-core/quality/cut-faces.ts';
import { kerfQuality } from '../../sim-core/quality/kerf-quality.ts';
import { MADE_LINE_MM, type MadeKerf, madeMetal, madeSamples } from './made-cut.ts';

const line = pathGeometry({ start: { xMm: 0, yMm: 0 }, segments: [{ kind: 'line', to: { xMm: MADE_LINE_MM, yMm: 0 } }] });
const STEEL_6 = { material: 'mild-steel', thicknessMm: 6 } as const;
const RAD = Math.PI / 180;

function facesOf(kerf: MadeKerf, aside = 0) {
  const samples = madeSamples(line, (sample) => {
    sample.yMm += aside;
  });
  return kerfQuality(madeMetal(6, kerf), line, samples, STEEL_6).faces;
}

test('kerf width at the top and below, the lean of each face by itself, and how far the kerf is off its line', () => {
  // The left face goes 5 deg to the right on its way down, the right one stands 3 deg the other way: wide at the top.
  const kerf: MadeKerf = (_, depth) => ({ left: 1.5 - Math.tan(5 * RAD) * depth, right: -0.7 + Math.tan(3 * RAD) * depth });
  const faces = facesOf(kerf, 0.4);
  expect(faces.cellMm).toBe(0.25);
  for (const sMm of [0.2, 17.3, 59.9]) {
    const reading = readFaces(faces, sMm);
    const lost = Math.tan(5 * RAD) + Math.tan(3 * RAD);
    expect(reading.topWidthMm).toBeCloseTo(2.2 - lost * 0.25, 2);
    expect(reading.bottomWidthMm).toBeCloseTo(2.2 - lost * 5.75, 2);
    expect(reading.leftLeanDeg).toBeCloseTo(5, 1);
    expect(reading.rightLeanDeg).toBeCloseTo(-3, 1);
    expect(reading.offLineMm).toBeCloseTo(0.4 + (Math.tan(3 * RAD) - Math.tan(5 * RAD)) * 0.125, 2);
    expect(reading.leftEdgeMm).toBeCloseTo(1.5 - Math.tan(5 * RAD) * 0.25, 2);
    expect(reading.depthMm).toBeCloseTo(6, 6);
  }
});

test('a place is read by itself: a wide spot is told where it is, and is gone 2 mm on', () => {
  const faces = facesOf((x) => (x > 29.2 && x < 30.8 ? { left: 2, right: -1 } : { left: 1, right: -1 }));
  expect(readFaces(faces, 30).topWidthMm).toBeCloseTo(3, 1);
  expect(readFaces(faces, 32).topWidthMm).toBeCloseTo(2, 2);
  expect(readFaces(faces, 28).topWidthMm).toBeCloseTo(2, 2);
});

test('metal that was left has no width below, and untouched metal no figure at all', () => {
  const faces = facesOf((x, depth) => (x > 40 || depth > 3 ? null : { left: 1, right: -1 }));
  const blind = readFaces(faces, 20);
  expect(blind.topWidthMm).toBeCloseTo(2, 2);
  expect(blind.bottomWidthMm).toBe(null);
  expect(blind.depthMm).toBeCloseTo(3, 1);
  expect(readFaces(faces, 50)).toEqual({
    topWidthMm: null,
    bottomWidthMm: null,
    leftLeanDeg: null,
    rightLeanDeg: null,
    offLineMm: null,
    leftEdgeMm: null,
    rightEdgeMm: null,
    depthMm: 0,
  });
});
