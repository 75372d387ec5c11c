// Guides: what they let the torch do, and that a wrong offset moves the line by exactly so much.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type DrillGuide, guidedOffsetMm, guideOffsetMm, holdToGuide, pathGeometry, SHIELDS } from '../../sim-core/index.ts';

const fit = { shield: 'contact' } as const;
const R = SHIELDS.contact.frontRadiusMm;
const straight = pathGeometry({ start: { xMm: 0, yMm: 40 }, segments: [{ kind: 'line', to: { xMm: 120, yMm: 40 } }] });
const left: DrillGuide = { kind: 'straight-edge', side: 'left', offsetMm: R };
const right: DrillGuide = { kind: 'straight-edge', side: 'right', offsetMm: R };

test('the offset is the radius of the torch front, whichever is fitted', () => {
  for (const shield of ['contact', 'open', 'wide'] as const) {
    expect(guideOffsetMm(shield)).toBe(SHIELDS[shield].frontRadiusMm);
    expect(guidedOffsetMm(left, SHIELDS[shield].frontRadiusMm, { shield })).toBe(0);
  }
});

describe('a straight edge', () => {
  test.each([-2, -0.5, 0, 0.5, 3])('set %d mm off moves a torch that leans on it by exactly that', (offMm) => {
    const onLeft = holdToGuide(straight, left, R + offMm, fit, 50, 60);
    expect(onLeft.xMm).toBe(50);
    expect(onLeft.yMm - 40).toBeCloseTo(offMm, 12);
    expect(guidedOffsetMm(left, R + offMm, fit)).toBeCloseTo(offMm, 12);
    const onRight = holdToGuide(straight, right, R + offMm, fit, 50, 20);
    expect(40 - onRight.yMm).toBeCloseTo(offMm, 12);
    expect(guidedOffsetMm(right, R + offMm, fit)).toBeCloseTo(-offMm, 12);
  });

  test('lets the hand leave it on the free side, before the line and past it too', () => {
    for (const x of [-10, 0, 60, 120, 130]) {
      expect(holdToGuide(straight, left, R, fit, x, 33)).toEqual({ xMm: x, yMm: 33 });
      expect(holdToGuide(straight, left, R, fit, x, 47).yMm).toBeCloseTo(40, 12);
    }
  });

  test('a front of another size than it was set for moves the line by the difference', () => {
    const held = holdToGuide(straight, left, R, { shield: 'wide' }, 50, 60);
    expect(held.yMm - 40).toBeCloseTo(R - SHIELDS.wide.frontRadiusMm, 12);
  });

  test('that was left off holds nothing, and freehand neither', () => {
    expect(holdToGuide(straight, left, null, fit, 50, 60)).toEqual({ xMm: 50, yMm: 60 });
    expect(holdToGuide(straight, { kind: 'freehand' }, R, fit, 50, 60)).toEqual({ xMm: 50, yMm: 60 });
  });
});

test('a template holds along its bends: never past its edge, and twice held is once held', () => {
  const bend = pathGeometry({
    start: { xMm: 0, yMm: 40 },
    segments: [
      { kind: 'line', to: { xMm: 50, yMm: 40 } },
      { kind: 'arc', centre: { xMm: 50, yMm: 70 }, sweepDeg: 90 },
    ],
  });
  const template: DrillGuide = { kind: 'template', side: 'left', offsetMm: R };
  fc.assert(
    fc.property(
      fc.double({ min: -5, max: 95, noNaN: true }),
      fc.double({ min: 25, max: 80, noNaN: true }),
      fc.double({ min: -2, max: 2, noNaN: true }),
      (x, y, offMm) => {
        const held = holdToGuide(bend, template, R + offMm, fit, x, y);
        expect(bend.nearest(held.xMm, held.yMm).offsetMm).toBeLessThanOrEqual(offMm + 1e-6);
        const again = holdToGuide(bend, template, R + offMm, fit, held.xMm, held.yMm);
        expect(again.xMm).toBeCloseTo(held.xMm, 6);
        expect(again.yMm).toBeCloseTo(held.yMm, 6);
      },
    ),
    { seed: 20_260_114 },
  );
});

describe('a circle guide', () => {
  const hole = pathGeometry({
    start: { xMm: 60, yMm: 50 },
    segments: [
      { kind: 'line', to: { xMm: 75, yMm: 50 } },
      { kind: 'arc', centre: { xMm: 50, yMm: 50 }, sweepDeg: 360 },
    ],
  });
  const guide: DrillGuide = { kind: 'circle', radiusMm: 25 };
  const fromPin = ({ xMm, yMm }: { xMm: number; yMm: number }) => Math.hypot(xMm - 50, yMm - 50);

  test.each([-1.5, 0, 2])('set %d mm off makes the circle smaller by exactly that, from either side', (offMm) => {
    for (const angle of [0.5, 1, 2, 3, 4, 5, 6]) {
      for (const radius of [22, 25, 29]) {
        const place = { xMm: 50 + radius * Math.cos(angle), yMm: 50 + radius * Math.sin(angle) };
        const held = holdToGuide(hole, guide, R + offMm, fit, place.xMm, place.yMm);
        expect(fromPin(held)).toBeCloseTo(25 - offMm, 9);
        expect(Math.atan2(held.yMm - 50, held.xMm - 50)).toBeCloseTo(Math.atan2(place.yMm - 50, place.xMm - 50), 9);
      }
    }
  });

  test('leaves the lead-in free until it takes over, without a jump', () => {
    expect(holdToGuide(hole, guide, R - 1, fit, 65, 51)).toEqual({ xMm: 65, yMm: 51 });
    let before = holdToGuide(hole, guide, R - 1, fit, 70, 50);
    for (let x = 70; x <= 75; x += 0.05) {
      const held = holdToGuide(hole, guide, R - 1, fit, x, 50);
      expect(held.xMm - before.xMm).toBeLessThan(0.11);
      before = held;
    }
    expect(fromPin(before)).toBeCloseTo(26, 1);
  });

  test('of another radius than the turn holds nothing', () => {
    expect(holdToGuide(hole, { kind: 'circle', radiusMm: 30 }, R - 1, fit, 50, 76)).toEqual({ xMm: 50, yMm: 76 });
  });
});
