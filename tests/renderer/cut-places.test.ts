// Places on the cut part: from a moment to its place and back, points that keep to an edge, and which way a face opens. Catches
// left taken for right, a snap that jumps across the plate, and a torch that is said to be where it was long before.
import { expect, test } from 'vitest';
import { besideLine, leanOfOneCell, leanWay, onEdge, placeAt, placeAtTick } from '../../renderer/review/measure/cut-places.ts';
import { type CutFaces, pathGeometry, type QualityPlace } from '../../sim-core/index.ts';

// Straight up the plate: left of travel is toward lower x.
const line = pathGeometry({ start: { xMm: 20, yMm: 0 }, segments: [{ kind: 'line', to: { xMm: 20, yMm: 40 } }] });

/** A kerf from 1 mm left to 0.5 mm right of the line, 40 mm long, in three layers of 2 mm. */
const faces: CutFaces = {
  stepMm: 0.5,
  cellMm: 0.25,
  layerMm: 2,
  layers: 3,
  leftMm: new Float32Array(80 * 3).fill(1),
  rightMm: new Float32Array(80 * 3).fill(-0.5),
  depthMm: new Float32Array(80).fill(6),
};

const places = Array.from({ length: 40 }, (_, n) => {
  const place: Partial<QualityPlace> = { sMm: n + 0.5, tick: n < 30 ? 1000 + 24 * n : 0 };
  return place as QualityPlace;
});

test('a moment has the place at which the torch was, and none where it was not on the line', () => {
  expect(placeAtTick(places, 1000 + 24 * 7)?.sMm).toBe(7.5);
  expect(placeAtTick(places, 1000 + 24 * 7 + 11)?.sMm).toBe(7.5);
  expect(placeAtTick(places, 900)?.sMm).toBe(0.5);
  expect(placeAtTick(places, 500)).toBe(null);
  expect(placeAtTick(places, 1000 + 24 * 29 + 300)).toBe(null);
  expect(placeAt(places, 7.2)?.sMm).toBe(7.5);
  expect(placeAt(places, 40)?.sMm).toBe(39.5);
  expect(placeAt([], 3)).toBe(null);
});

test('a place beside the line lies on its own side, whichever way the cut runs', () => {
  expect(besideLine(line, 10, 3).xMm).toBeCloseTo(17, 9);
  expect(besideLine(line, 10, 3).yMm).toBeCloseTo(10, 9);
  expect(besideLine(line, 10, -3).xMm).toBeCloseTo(23, 9);
});

test('a point near the cut is taken to the edge that is nearest; one that is not stays where it is', () => {
  expect(onEdge(line, faces, { xMm: 18.2, yMm: 12 }).xMm).toBeCloseTo(19, 6);
  expect(onEdge(line, faces, { xMm: 20.4, yMm: 12 }).xMm).toBeCloseTo(20.5, 6);
  expect(onEdge(line, faces, { xMm: 20.4, yMm: 12 }).yMm).toBeCloseTo(12, 6);
  const far = { xMm: 30, yMm: 12 };
  expect(onEdge(line, faces, far)).toBe(far);
  const beyond = { xMm: 20, yMm: 47 };
  expect(onEdge(line, faces, beyond)).toBe(beyond);
  expect(onEdge(line, faces, far, Number.POSITIVE_INFINITY).xMm).toBeCloseTo(20.5, 6);
});

test('which way a face opens: to the right on its way down closes the kerf on the left and opens it on the right', () => {
  expect(leanWay('left', 4, 0.5)).toBe('top');
  expect(leanWay('right', 4, 0.5)).toBe('bottom');
  expect(leanWay('left', -4, 0.5)).toBe('bottom');
  expect(leanWay('right', -4, 0.5)).toBe('top');
  expect(leanWay('right', -0.4, 0.5)).toBe('square');
  expect(leanOfOneCell(faces)).toBeCloseTo(2.386, 3);
});
