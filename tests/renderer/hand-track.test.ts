import { describe, expect, test } from 'vitest';
import { createHandTrack } from '../../renderer/bench/hand-track.ts';
import { limitsFor } from '../../renderer/input/hand-pose.ts';
import type { HandPose } from '../../sim-core/index.ts';

const limits = limitsFor(160, 90);
const rest: HandPose = { xMm: 0, yMm: 50, heightMm: 1.5, leanXDeg: 0, leanYDeg: 0, trigger: false };
const at = (xMm: number, trigger = false): HandPose => ({ ...rest, xMm, trigger });
const pointer = (atMs: number, xMm: number, trigger = false) => ({ atMs, pose: at(xMm, trigger), rate: null });
const still = { yMmPerS: 0, heightMmPerS: 0, leanXDegPerS: 0, leanYDegPerS: 0, uprightDegPerS: 0 };

describe('events of the hand become poses of ticks', () => {
  test('between two pointer events the way is straight', () => {
    const track = createHandTrack(rest, 0, limits);
    track.push(pointer(100, 0));
    track.push(pointer(120, 10));
    expect(track.poseAt(105).xMm).toBeCloseTo(2.5, 9);
    expect(track.poseAt(115).xMm).toBeCloseTo(7.5, 9);
    expect(track.poseAt(120).xMm).toBe(10);
  });

  test('speed comes out even when a busy machine delivers one event in 100 ms', () => {
    const track = createHandTrack(rest, 0, limits);
    for (let n = 0; n <= 10; n += 1) track.push(pointer(n * 100, n));
    const places = Array.from({ length: 200 }, (_, n) => track.poseAt(50 + (n * 1000) / 240).xMm);
    const steps = places.slice(1).map((x, n) => x - (places[n] as number));
    for (const step of steps) expect(step * 240).toBeCloseTo(10, 6);
  });

  test('a pointer that rested does not drift toward its next place before it moved', () => {
    const track = createHandTrack(rest, 0, limits);
    track.push(pointer(10, 0));
    track.push(pointer(900, 6));
    expect(track.poseAt(850).xMm).toBe(0);
    expect(track.poseAt(888).xMm).toBeCloseTo(3, 9);
    expect(track.poseAt(900).xMm).toBe(6);
  });

  test('a held key goes on by its rate, at any moment asked for', () => {
    const track = createHandTrack(rest, 0, limits);
    track.push({ atMs: 50, pose: at(0), rate: { ...still, xMmPerS: 12 } });
    expect(track.poseAt(1050).xMm).toBeCloseTo(12, 9);
    track.push({ atMs: 2050, pose: at(24), rate: null });
    expect(track.poseAt(2050).xMm).toBeCloseTo(24, 9);
    expect(track.poseAt(3000).xMm).toBe(24);
  });

  test('a late place is walked to, never jumped to', () => {
    const track = createHandTrack(rest, 0, limits);
    track.push(pointer(10, 0));
    track.poseAt(200);
    track.push(pointer(160, 4));
    const walk = [200, 210, 220, 230, 240].map((ms) => track.poseAt(ms).xMm);
    expect(walk[0]).toBe(0);
    expect(walk[2]).toBeCloseTo(2, 9);
    expect(walk[4]).toBe(4);
  });

  test('a late trigger acts at once', () => {
    const track = createHandTrack(rest, 0, limits);
    track.poseAt(500);
    track.push(pointer(480, 0, true));
    expect(track.poseAt(500).trigger).toBe(true);
  });

  test('a rest lets go of the trigger, forgets what is on its way and stays where it is', () => {
    const track = createHandTrack(rest, 0, limits);
    track.push({ atMs: 0, pose: at(0, true), rate: { ...still, xMmPerS: 10 } });
    track.push(pointer(900, 80, true));
    track.rest(500);
    expect(track.poseAt(1500)).toEqual({ ...at(5), trigger: false });
  });

  test('nothing leaves the bench', () => {
    const track = createHandTrack(rest, 0, limits);
    track.push({ atMs: 0, pose: at(0), rate: { ...still, xMmPerS: 1000 } });
    expect(track.poseAt(5000).xMm).toBe(190);
  });
});
