import { type RefObject, useRef } from 'react';
import { STATIONS } from '../scene/cameras.ts';
import type { SceneHandle } from '../scene/scene-handle.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

const TURN_RAD = 0.09;
const NEARER = 0.12;

const KEYS: Record<string, [left: number, up: number, zoom: number]> = {
  ArrowLeft: [TURN_RAD, 0, 0],
  ArrowRight: [-TURN_RAD, 0, 0],
  ArrowUp: [0, TURN_RAD, 0],
  ArrowDown: [0, -TURN_RAD, 0],
  '+': [0, 0, NEARER],
  '=': [0, 0, NEARER],
  '-': [0, 0, -NEARER],
};

/** A pointer that went farther than this between down and up turned the camera, px. */
const PRESS_SLACK_PX = 4;

export interface FreeCameraProps {
  frame: RefObject<HTMLDivElement | null>;
  handle: SceneHandle;
  /** A press on a place of the plate, as apart from a drag. */
  onPress?(place: { xMm: number; yMm: number }): void;
}

/** The frame in which the free camera is dragged, turned by keys, or sent to a fixed stand. */
export function FreeCamera({ frame, handle, onPress }: FreeCameraProps) {
  const pressedAt = useRef({ x: 0, y: 0 });
  return (
    <>
      <div
        className="review-stage"
        ref={frame}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the frame takes the keys that turn the camera
        tabIndex={0}
        role="application"
        aria-label={say('camera.frame')}
        onPointerDown={({ clientX, clientY }) => {
          pressedAt.current = { x: clientX, y: clientY };
        }}
        onClick={({ clientX, clientY }) => {
          const { x, y } = pressedAt.current;
          if (Math.hypot(clientX - x, clientY - y) > PRESS_SLACK_PX) return;
          const place = handle.plateFromScreen(clientX, clientY, 0);
          if (place) onPress?.(place);
        }}
        onKeyDown={(event) => {
          const nudge = KEYS[event.key];
          if (!nudge) return;
          event.preventDefault();
          handle.nudge(...nudge);
        }}
      />
      <fieldset className="stations">
        <legend className="out-of-sight">{say('camera.title')}</legend>
        {STATIONS.map((station) => (
          <Action key={station} className="station" onPress={() => handle.goTo(station)}>
            {say(`camera.${station}`)}
          </Action>
        ))}
      </fieldset>
    </>
  );
}
