import { type PerspectiveCamera, Plane, Raycaster, Vector2, Vector3 } from 'three';
import type { Station } from './cameras.ts';

/** What the page may ask of the scene from outside its frame loop. Filled in by the scene when it stands. */
export interface SceneHandle {
  camera: PerspectiveCamera | null;
  seenGeneration: number;
  /** Median frame time of the last stretch measured, ms; NaN before. */
  medianFrameMs: number;
  mainRect(): DOMRect | null;
  goTo(station: Station): void;
  /** Turns and moves the free camera: radians to the left and up, and a share nearer (positive) or farther. */
  nudge(leftRad: number, upRad: number, zoom: number): void;
  redraw(): void;
  /** The plate as the free camera sees it now, as a PNG data URL; null before the scene stands. */
  picture(): string | null;
  /** Place in the plane of the tip under a point of the screen; null outside the view. */
  plateFromScreen(clientX: number, clientY: number, heightMm: number): { xMm: number; yMm: number } | null;
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
  return {
    camera: null,
    seenGeneration: -1,
    medianFrameMs: Number.NaN,
    mainRect: () => null,
    goTo: () => undefined,
    nudge: () => undefined,
    redraw: () => undefined,
    picture: () => null,
    plateFromScreen(clientX, clientY, heightMm) {
      const rect = this.mainRect();
      if (!rect || !this.camera) return null;
      pointer.set(((clientX - rect.left) / rect.width) * 2 - 1, 1 - ((clientY - rect.top) / rect.height) * 2);
      ray.setFromCamera(pointer, this.camera);
      plane.constant = -heightMm;
      return ray.ray.intersectPlane(plane, hit) ? { xMm: hit.x, yMm: hit.y } : null;
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
