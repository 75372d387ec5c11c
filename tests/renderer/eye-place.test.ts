import { PerspectiveCamera, Vector3 } from 'three';
import { describe, expect, test } from 'vitest';
import { BENCH_STATIONS, FIRST_EYE, movedEye } from '../../renderer/input/eye-place.ts';
import { applyPose, BENCH_FOV_DEG, shiftedPose, stationPose } from '../../renderer/scene/cameras.ts';
import { createSceneHandle } from '../../renderer/scene/scene-handle.ts';

describe('where somebody at the bench looks from', () => {
  test('one move goes round all the places, and each begins with the head straight', () => {
    let eye = movedEye(FIRST_EYE, 'head-right', 30);
    const seen = BENCH_STATIONS.map(() => {
      eye = movedEye(eye, 'view', 0);
      expect(eye).toMatchObject({ rightMm: 0, upMm: 0 });
      return eye.station;
    });
    expect(seen).toEqual(['shoulder', 'beside', 'operator']);
  });

  test('a head goes as far as a neck lets it, and comes back', () => {
    let eye = FIRST_EYE;
    for (let n = 0; n < 100; n += 1) eye = movedEye(eye, 'head-left', 10);
    const reach = -eye.rightMm;
    expect(reach).toBeGreaterThan(50);
    expect(reach).toBeLessThan(300);
    for (let n = 0; n < reach / 10; n += 1) eye = movedEye(eye, 'head-right', 10);
    expect(eye).toEqual(FIRST_EYE);
  });

  test.each(BENCH_STATIONS)(
    'from %s, a head to the right moves the eye to the right of the picture and looks at the same place',
    (station) => {
      const pose = stationPose(station, 160, 90, 1.5);
      const camera = new PerspectiveCamera(BENCH_FOV_DEG, 1.5, 5, 20000);
      applyPose(camera, pose);
      const shifted = shiftedPose(pose, 40, 25);
      const went = new Vector3(...shifted.eye).sub(new Vector3(...pose.eye));
      expect(went.length()).toBeCloseTo(Math.hypot(40, 25), 9);
      expect(went.applyQuaternion(camera.quaternion.clone().invert()).x).toBeCloseTo(40, 6);
      expect(shifted.target).toEqual(pose.target);
    },
  );
});

test('the hand is steered from the operator’s place, wherever the eye is', () => {
  const handle = createSceneHandle();
  const camera = (station: 'operator' | 'beside') => {
    const made = new PerspectiveCamera(BENCH_FOV_DEG, 1.5, 5, 20000);
    applyPose(made, stationPose(station, 160, 90, 1.5));
    made.updateProjectionMatrix();
    return made;
  };
  handle.mainRect = () => ({ left: 0, top: 0, width: 900, height: 600 }) as DOMRect;
  handle.camera = camera('operator');
  handle.handCamera = camera('operator');
  const before = handle.handFromScreen(450, 300, 1.5);
  expect(before).toEqual(handle.plateFromScreen(450, 300, 1.5));
  handle.camera = camera('beside');
  expect(handle.handFromScreen(450, 300, 1.5)).toEqual(before);
  expect(handle.plateFromScreen(450, 300, 1.5)).not.toEqual(before);
});
