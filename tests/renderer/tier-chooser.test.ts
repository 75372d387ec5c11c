import { describe, expect, test } from 'vitest';
import { createTierChooser, firstTier } from '../../renderer/scene/tier-chooser.ts';

function frames(chooser: ReturnType<typeof createTierChooser>, ms: number, count: number) {
  for (let n = 0; n < count; n += 1) chooser.frame(ms);
  return chooser.tier;
}

describe('quality by measured frame time', () => {
  test('slow frames go down a tier at a time, to the lightest and no farther', () => {
    const chooser = createTierChooser('full');
    expect(frames(chooser, 90, 30)).toBe('middle');
    expect(frames(chooser, 90, 30)).toBe('lite');
    expect(frames(chooser, 400, 300)).toBe('lite');
  });

  test('fast frames go up only after several stretches', () => {
    const chooser = createTierChooser('lite');
    expect(frames(chooser, 16.7, 90)).toBe('lite');
    expect(frames(chooser, 16.7, 30)).toBe('middle');
  });

  test('a tier that was too slow is not tried again', () => {
    const chooser = createTierChooser('full');
    frames(chooser, 90, 30);
    expect(frames(chooser, 10, 3000)).toBe('middle');
  });

  test('frames in between change nothing', () => {
    expect(frames(createTierChooser('middle'), 30, 3000)).toBe('middle');
  });

  test('a hidden page and a single stall are no frame times', () => {
    const chooser = createTierChooser('middle');
    for (let n = 0; n < 100; n += 1) chooser.frame(60_000);
    expect(Number.isNaN(chooser.medianMs)).toBe(true);
    for (let n = 0; n < 30; n += 1) chooser.frame(n % 10 === 0 ? 900 : 20);
    expect(chooser.tier).toBe('middle');
  });

  test('a software renderer starts light, a graphics card in the middle', () => {
    expect(firstTier('ANGLE (Google, Vulkan 1.3.0 (SwiftShader Device (Subzero)), SwiftShader driver)')).toBe('lite');
    expect(firstTier('llvmpipe (LLVM 15.0.6, 256 bits)')).toBe('lite');
    expect(firstTier('ANGLE (Vendor, Some Graphics 770 Direct3D11)')).toBe('middle');
    expect(firstTier('')).toBe('middle');
  });
});
