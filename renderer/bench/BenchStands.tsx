import { type RefObject, useCallback, useRef, useState } from 'react';
import { ToggleButton } from 'react-aria-components';
import { BENCH_STATIONS, type BenchStation, type EyeMove, FIRST_EYE, movedEye } from '../input/eye-place.ts';
import type { SceneHandle } from '../scene/scene-handle.ts';
import { say } from '../text/say.ts';

export interface BenchEye {
  station: BenchStation;
  move(move: EyeMove, byMm: number): void;
  standAt(station: BenchStation): void;
}

/** Where somebody at the bench looks from: moved by keys and buttons without the torch, which stays in the hand. */
export function useBenchEye(scene: SceneHandle): BenchEye {
  const [station, setStation] = useState<BenchStation>(FIRST_EYE.station);
  const eye = useRef(FIRST_EYE);
  const lookFrom = useCallback(
    (next: typeof FIRST_EYE) => {
      eye.current = next;
      scene.lookFrom(next.station, next.rightMm, next.upMm);
      setStation(next.station);
    },
    [scene],
  );
  const move = useCallback((move: EyeMove, byMm: number) => lookFrom(movedEye(eye.current, move, byMm)), [lookFrom]);
  const standAt = useCallback((station: BenchStation) => lookFrom({ ...FIRST_EYE, station }), [lookFrom]);
  return { station, move, standAt };
}

export interface BenchStandsProps {
  eye: BenchEye;
  /** Takes the keys again afterwards. */
  stage: RefObject<HTMLElement | null>;
}

/** The places to look from, to be chosen by pointer or Tab; the key for it goes round them. */
export function BenchStands({ eye, stage }: BenchStandsProps) {
  return (
    <fieldset className="stations bench-stations">
      <legend className="out-of-sight">{say('bench.look-from')}</legend>
      {BENCH_STATIONS.map((station) => (
        <ToggleButton
          key={station}
          className="action station"
          isSelected={eye.station === station}
          onChange={() => {
            eye.standAt(station);
            stage.current?.focus({ preventScroll: true });
          }}
        >
          {say(`camera.${station}`)}
        </ToggleButton>
      ))}
    </fieldset>
  );
}
