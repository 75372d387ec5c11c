import { type PerspectiveCamera, Plane, Raycaster, Vector2, Vector3 } from 'three';
import type { Station } from './cameras.ts';

/** What the page may ask of the scene from outside its frame loop. Filled in by the scene when it stands. */
export interface SceneHandle {
  camera: PerspectiveCamera | null;
  /** Sees the plate from the operator's place, wherever the main view looks from: a hand stays where it is when a head moves. */
  handCamera: PerspectiveCamera | null;
  seenGeneration: number;
  /** Median frame time of the last stretch measured, ms; NaN before. */
  medianFrameMs: number;
  mainRect(): DOMRect | null;
  /** Where the main view looks from: a station, and a head shifted to its right and up, mm. */
  readonly eye: { station: Station; rightMm: number; upMm: number };
  goTo(station: Station): void;
  lookFrom(station: Station, rightMm: number, upMm: number): void;
  /** The scene's own: the camera goes to where the eye is. */
  placeEye(): void;
  /** Turns and moves the free camera: radians to the left and up, and a share nearer (positive) or farther. */
  nudge(leftRad: number, upRad: number, zoom: number): void;
  redraw(): void;
  /** The plate as the free camera sees it now, as a PNG data URL; null before the scene stands. */
  picture(): string | null;
  /** Place in the plane of the tip under a point of the screen; null outside the view. */
  plateFromScreen(clientX: number, clientY: number, heightMm: number): { xMm: number; yMm: number } | null;
  /** The same for the hand, from the operator's place. */
  handFromScreen(clientX: number, clientY: number, heightMm: number): { xMm: number; yMm: number } | null;
  /** Where a place of the plate's top is seen now, px from the main view's corner; null behind the camera. */
  screenFromPlate(xMm: number, yMm: number): { left: number; top: number } | null;
  /** Called after every drawing of the main view; returns the way to stop being called. */
  onDrawn(listener: () => void): () => void;
  /** The scene's own: the main view has been drawn. */
  drawn(): void;
}

export function createSceneHandle(): SceneHandle {
  const ray = new Raycaster();
  const pointer = new Vector2();
  const plane = new Plane(new Vector3(0, 0, 1), 0);
  const hit = new Vector3();
  const listeners = new Set<() => void>();
  const fromScreen = (camera: PerspectiveCamera | null, rect: DOMRect | null, x: number, y: number, heightMm: number) => {
    if (!rect || !camera) return null;
    pointer.set(((x - rect.left) / rect.width) * 2 - 1, 1 - ((y - rect.top) / rect.height) * 2);
    ray.setFromCamera(pointer, camera);
    plane.constant = -heightMm;
    return ray.ray.intersectPlane(plane, hit) ? { xMm: hit.x, yMm: hit.y } : null;
  };
  return {
    camera: null,
    handCamera: null,
    seenGeneration: -1,
    medianFrameMs: Number.NaN,
    mainRect: () => null,
    eye: { station: 'operator', rightMm: 0, upMm: 0 },
    goTo(station) {
      this.lookFrom(station, 0, 0);
    },
    lookFrom(station, rightMm, upMm) {
      Object.assign(this.eye, { station, rightMm, upMm });
      this.placeEye();
    },
    placeEye: () => undefined,
    nudge: () => undefined,
    redraw: () => undefined,
    picture: () => null,
    plateFromScreen(clientX, clientY, heightMm) {
      return fromScreen(this.camera, this.mainRect(), clientX, clientY, heightMm);
    },
    handFromScreen(clientX, clientY, heightMm) {
      return fromScreen(this.handCamera, this.mainRect(), clientX, clientY, heightMm);
    },
    screenFromPlate(xMm, yMm) {
      const rect = this.mainRect();
      if (!rect || !this.camera) return null;
      hit.set(xMm, yMm, 0).project(this.camera);
      return hit.z > 1 ? null : { left: ((hit.x + 1) / 2) * rect.width, top: ((1 - hit.y) / 2) * rect.height };
    },
    onDrawn(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    drawn() {
      for (const listener of listeners) listener();
    },
  };
}
