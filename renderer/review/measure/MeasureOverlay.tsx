import { readFaces } from '../../../sim-core/index.ts';
import type { SceneHandle } from '../../scene/scene-handle.ts';
import { say } from '../../text/say.ts';
import { quantity, type UnitSystem } from '../../ui/units.ts';
import { CELL_STEP_MM } from './Cross.tsx';
import { besideLine, strokeAcross } from './cut-places.ts';
import { PlateStroke } from './PlateStroke.tsx';
import { PointHandle } from './PointHandle.tsx';
import type { CutFace } from './use-cut-face.ts';
import { WayHandle } from './WayHandle.tsx';

/** Step of the keys on the map, mm: from place to place. */
const MAP_STEP_MM = 1;

export interface MeasureOverlayProps {
  face: CutFace;
  scene: SceneHandle;
  units: UnitSystem;
}

/** What is measured, drawn over the plate, with handles for pointer and keys. */
export function MeasureOverlay({ face, scene, units }: MeasureOverlayProps) {
  return (
    <div className="plate-overlay">
      {face.tool === 'distance' ? (
        <Distance face={face} scene={scene} units={units} />
      ) : (
        <Place face={face} scene={scene} units={units} />
      )}
    </div>
  );
}

function Place({ face, scene, units }: MeasureOverlayProps) {
  const { line, tool } = face;
  const sMm = tool === 'map' ? face.shownMm : face.measuredMm;
  // Away from the line there is nothing to mark; the handle waits at its start for the keys.
  const way = sMm ?? 0;
  const reading = readFaces(face.faces, way);
  const go = tool === 'map' ? face.showPlace : face.measurePlace;
  return (
    <>
      {sMm !== null && <PlateStroke scene={scene} ends={strokeAcross(line, way, reading)} />}
      <WayHandle
        scene={scene}
        at={besideLine(line, way, reading.offLineMm ?? 0)}
        label={say('measure.spot')}
        says={say('measure.spot.says', { way: quantity(way, 'fine-mm', units) })}
        sMm={way}
        lengthMm={line.lengthMm}
        stepMm={tool === 'map' ? MAP_STEP_MM : CELL_STEP_MM}
        onWay={go}
        onDrag={({ xMm, yMm }) => go(line.nearest(xMm, yMm).sMm)}
      />
    </>
  );
}

function Distance({ face, scene, units }: MeasureOverlayProps) {
  const { points, movePoint } = face;
  return (
    <>
      <PlateStroke scene={scene} ends={points} />
      {points.map((point, n) => {
        const index = n as 0 | 1;
        const name = say(index === 0 ? 'measure.distance.first' : 'measure.distance.second');
        const [x, y] = [point.xMm, point.yMm].map((mm) => quantity(mm, 'fine-mm', units));
        return (
          <PointHandle
            key={index}
            scene={scene}
            at={point}
            sign={String(index + 1)}
            label={say('measure.distance.point', { name, x: x as string, y: y as string })}
            onDrag={(to) => movePoint(index, to)}
            onStep={(dx, dy) => movePoint(index, { xMm: point.xMm + dx, yMm: point.yMm + dy }, true)}
            onEnter={() => face.snapPoint(index)}
          />
        );
      })}
    </>
  );
}
