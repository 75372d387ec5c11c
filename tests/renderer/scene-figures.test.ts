import { describe, expect, test } from 'vitest';
import { followUnder, underPose } from '../../renderer/scene/cameras.ts';
import { fallPose, TRAY_DEPTH_MM } from '../../renderer/scene/fall-pose.ts';
import { glowByte, glowColour, glowRampBytes } from '../../renderer/scene/glow-ramp.ts';
import { lineHeading } from '../../renderer/scene/line-heading.ts';
import { createSparkPool, SPARK_FLOATS } from '../../renderer/scene/spark-pool.ts';
import type { Ejecta } from '../../sim-core/index.ts';

describe('glow of hot metal', () => {
  test('cold metal is dark; glow begins dull red and only grows as it heats', () => {
    expect(glowColour(400)).toEqual({ r: 0, g: 0, b: 0 });
    const dull = glowColour(700);
    expect(dull.r).toBeGreaterThan(0);
    expect(dull.g / dull.r).toBeLessThan(0.12);
    let before = 0;
    for (let c = 500; c <= 1500; c += 20) {
      const { r, g, b } = glowColour(c);
      expect(r + g + b).toBeGreaterThanOrEqual(before);
      before = r + g + b;
    }
  });

  test('the order of channels is that of a black body, and green gains on red with heat', () => {
    for (const c of [800, 1100, 1500]) {
      const { r, g, b } = glowColour(c);
      expect(r).toBeGreaterThan(g);
      expect(g).toBeGreaterThanOrEqual(b);
    }
    expect(glowColour(1500).g / glowColour(1500).r).toBeGreaterThan(glowColour(900).g / glowColour(900).r);
  });

  test('a temperature picks its own colour from the ramp', () => {
    const ramp = glowRampBytes();
    const at = glowByte(1200) * 4;
    expect((ramp[at] as number) / 255).toBeCloseTo(Math.min(1, glowColour(1200).r), 1);
    expect(glowByte(-50)).toBe(0);
    expect(glowByte(9000)).toBe(255);
  });
});

const trailing: Ejecta = {
  underRateMm3PerS: 100,
  underXMm: 50,
  underYMm: 40,
  underDirX: -Math.sin(0.4),
  underDirY: 0,
  underDirZ: -Math.cos(0.4),
  topRateMm3PerS: 0,
  topXMm: Number.NaN,
  topYMm: Number.NaN,
  topZMm: Number.NaN,
  topDirX: Number.NaN,
  topDirY: Number.NaN,
  topDirZ: Number.NaN,
};

describe('sparks', () => {
  const read = (data: Float32Array, field: number) =>
    Array.from({ length: data.length / SPARK_FLOATS }, (_, n) => n)
      .filter((n) => (data[n * SPARK_FLOATS + 7] as number) > 0)
      .map((n) => data[n * SPARK_FLOATS + field] as number);
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

  test('they leave the underside where the core says, along its direction, as a lobe', () => {
    const pool = createSparkPool(1000, 6);
    for (let t = 0; t < 0.3; t += 1 / 60) pool.emit(trailing, t, t + 1 / 60);
    const vx = read(pool.data, 3);
    const vz = read(pool.data, 5);
    expect(vx.length).toBeGreaterThan(200);
    expect(Math.atan2(-mean(vx), -mean(vz))).toBeCloseTo(0.4, 1);
    expect(mean(read(pool.data, 2))).toBeCloseTo(-6, 0);
    expect(new Set(read(pool.data, 9))).toEqual(new Set([0]));
  });

  test('twice the metal is about twice the sparks, whatever the frame rate', () => {
    const count = (rate: number, step: number) => {
      const pool = createSparkPool(4000, 6);
      for (let t = 0; t < 0.25; t += step) pool.emit({ ...trailing, underRateMm3PerS: rate }, t, t + step);
      return read(pool.data, 0).length;
    };
    expect(count(80, 1 / 60) / count(40, 1 / 60)).toBeCloseTo(2, 1);
    expect(count(40, 1 / 20) / count(40, 1 / 120)).toBeCloseTo(1, 1);
  });

  test('metal thrown up carries the mark of its side and another speed', () => {
    const pool = createSparkPool(1000, 6);
    const up: Ejecta = {
      ...trailing,
      underRateMm3PerS: 0,
      topRateMm3PerS: 100,
      topXMm: 50,
      topYMm: 40,
      topZMm: 0,
      topDirX: -0.5,
      topDirY: 0,
      topDirZ: 0.86,
    };
    pool.settle(up, 10);
    expect(new Set(read(pool.data, 9))).toEqual(new Set([1]));
    expect(mean(read(pool.data, 5))).toBeGreaterThan(0);
    expect(mean(read(pool.data, 8))).toBeGreaterThan(0.6);
  });

  test('no metal, no sparks; a jump in time clears the air', () => {
    const pool = createSparkPool(1000, 6);
    pool.emit(trailing, 0, 0.1);
    pool.settle({ ...trailing, underRateMm3PerS: 0 }, 5);
    expect(read(pool.data, 0)).toHaveLength(0);
    expect(pool.takeWritten()).toEqual({ from: 0, count: 1000 });
    expect(pool.takeWritten()).toBeNull();
    pool.emit(trailing, 5, 5.02);
    const first = pool.takeWritten();
    expect(first).toEqual({ from: 0, count: read(pool.data, 0).length });
    pool.emit(trailing, 5.02, 5.04);
    expect(pool.takeWritten()?.from).toBe(first?.count);
  });
});

describe('a piece that falls', () => {
  const piece = { id: 1, tick: 240, centreXMm: 80, centreYMm: 75, areaMm2: 4000 };

  test('it hangs in place before its tick, falls freely, and lies on the tray', () => {
    expect(fallPose(piece, 100, 80, 45)).toMatchObject({ dropMm: 0, tipRad: 0 });
    expect(fallPose(piece, 264, 80, 45).dropMm).toBeCloseTo(0.5 * 9810 * 0.01, 6);
    expect(fallPose(piece, 2400, 80, 45).dropMm).toBe(TRAY_DEPTH_MM);
    expect(fallPose(piece, 2400, 80, 45).tipRad).toBeCloseTo(0.1, 3);
  });

  test('it never rises and never leaps', () => {
    let before = 0;
    for (let tick = 240; tick < 400; tick += 1) {
      const { dropMm } = fallPose(piece, tick, 80, 45);
      expect(dropMm).toBeGreaterThanOrEqual(before);
      expect(dropMm - before).toBeLessThan(9);
      before = dropMm;
    }
  });
});

describe('the eye under the plate', () => {
  test('it looks square across the travel, from its right hand, so that trailing is to the left', () => {
    const eye = { xMm: Number.NaN, yMm: 0, headingRad: 0 };
    followUnder(eye, 50, 60, 0, 0);
    const pose = underPose(eye, 6);
    expect(pose.eye[0]).toBeCloseTo(50, 9);
    expect(pose.eye[1]).toBeLessThan(0);
    expect(pose.eye[2]).toBeLessThan(-6);
  });

  test('it turns the short way round, and not at once', () => {
    const eye = { xMm: 0, yMm: 0, headingRad: 3 };
    followUnder(eye, 0, 0, -3, 0.1);
    expect(eye.headingRad).toBeGreaterThan(3);
    expect(eye.headingRad).toBeLessThan(3.1);
  });

  test('the line’s own direction is taken, not the wobble of the hand', () => {
    const line = Array.from({ length: 11 }, (_, n) => ({ xMm: n < 6 ? n * 10 : 50, yMm: n < 6 ? 0 : (n - 5) * 10 }));
    expect(lineHeading(line, 21, 3)).toBeCloseTo(0, 9);
    expect(lineHeading(line, 48, 41)).toBeCloseTo(Math.PI / 2, 9);
    expect(lineHeading(line, 50, 90)).toBeCloseTo(Math.PI / 2, 9);
  });
});
