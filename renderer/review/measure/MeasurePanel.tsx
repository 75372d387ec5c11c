import { type Drill, type FaceReading, partSide, readFaces, TICK_HZ } from '../../../sim-core/index.ts';
import { say } from '../../text/say.ts';
import { Action } from '../../ui/Action.tsx';
import { Tick } from '../../ui/Tick.tsx';
import { clock, figure as figureOf, quantity, type UnitSystem } from '../../ui/units.ts';
import { CELL_STEP_MM, FAR_STEP_MM } from './Cross.tsx';
import { leanOfOneCell, leanWay, placeAt } from './cut-places.ts';
import type { CutFace } from './use-cut-face.ts';

export interface MeasurePanelProps {
  drill: Drill;
  face: CutFace;
  units: UnitSystem;
  onGo(tick: number): void;
}

/** Length of line over which a reading is taken, mm, as the core has it. */
const STRETCH_MM = 1;
/** A kerf counts as on its line within this, mm, and a face as square within this, deg: less cannot be told from the cells. */
const LEAST_OFF_MM = 0.05;
const LEAST_LEAN_DEG = 0.5;

/** The figures of the place or the distance that is measured. */
export function MeasurePanel(props: MeasurePanelProps) {
  return props.face.tool === 'place' ? <PlaceFigures {...props} /> : <DistanceFigures {...props} />;
}

function stepsIn(units: UnitSystem): { step: string; far: string } {
  return { step: quantity(CELL_STEP_MM, 'fine-mm', units), far: quantity(FAR_STEP_MM, 'mm', units) };
}

function Facts({ facts }: { facts: readonly (readonly [name: string, value: string, id: string])[] }) {
  return (
    <dl className="facts">
      {facts.map(([name, value, id]) => (
        <div key={id} data-measured={id}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

function PlaceFigures({ drill, face, units, onGo }: MeasurePanelProps) {
  const { faces, line, measuredMm } = face;
  const reading = readFaces(faces, measuredMm);
  const place = placeAt(face.quality.perMm, measuredMm);
  const part = partSide(drill, line) === 1 ? 'left' : 'right';
  const fine = (mm: number) => quantity(mm, 'fine-mm', units);
  const { topWidthMm, bottomWidthMm, offLineMm, depthMm } = reading;
  const faceOf = (side: 'left' | 'right'): readonly [string, string, string] => [
    say(side === part ? `measure.place.${side}.part` : `measure.place.${side}`),
    leanWords(drill, side, reading, units),
    side,
  ];
  const through = depthMm >= faces.layers * faces.layerMm - 0.01;
  return (
    <div className="measure" data-way={measuredMm.toFixed(2)}>
      <p className="small soft">{say('measure.place.how', stepsIn(units))}</p>
      <Facts
        facts={[
          [say('measure.place.at'), fine(measuredMm), 'way'],
          [
            say('measure.place.width'),
            `${figureOf(topWidthMm, 'fine-mm', units).value} / ${quantity(bottomWidthMm, 'fine-mm', units)}`,
            'width',
          ],
          faceOf('left'),
          faceOf('right'),
          [say('measure.place.off'), offWords(offLineMm, units), 'off'],
          [say('measure.place.depth'), through ? say('measure.place.through') : fine(depthMm), 'depth'],
        ]}
      />
      {place && place.tick > 0 && (
        <Action onPress={() => onGo(place.tick)}>{say('measure.place.moment', { time: clock(place.tick / TICK_HZ) })}</Action>
      )}
      <p className="small soft">{say('measure.finished')}</p>
      <p className="small soft">
        {say('measure.resolution', {
          cell: fine(faces.cellMm),
          stretch: quantity(STRETCH_MM, 'mm', units),
          lean: quantity(leanOfOneCell(faces), 'fine-deg', units),
        })}
      </p>
    </div>
  );
}

function offWords(offMm: number | null, units: UnitSystem): string {
  if (offMm === null) return say('measure.place.none');
  if (Math.abs(offMm) < LEAST_OFF_MM) return say('measure.off.none');
  return say(offMm > 0 ? 'measure.off.left' : 'measure.off.right', { value: quantity(Math.abs(offMm), 'fine-mm', units) });
}

function leanWords(drill: Drill, side: 'left' | 'right', reading: FaceReading, units: UnitSystem): string {
  const lean = side === 'left' ? reading.leftLeanDeg : reading.rightLeanDeg;
  if (lean === null) return say('measure.place.none');
  const { bevelDeg } = drill.intended;
  const degrees = (value: number) => quantity(value, 'fine-deg', units);
  if (bevelDeg !== 0) return say('measure.lean.meant', { value: degrees(lean), meant: degrees(bevelDeg) });
  return say(`measure.lean.${leanWay(side, lean, LEAST_LEAN_DEG)}`, { value: degrees(Math.abs(lean)) });
}

function DistanceFigures({ face, units }: MeasurePanelProps) {
  const { points, snaps, setSnaps, faces } = face;
  const [first, second] = points;
  const dx = second.xMm - first.xMm;
  const dy = second.yMm - first.yMm;
  const whole = Math.sqrt(dx * dx + dy * dy);
  const fine = (mm: number) => quantity(mm, 'fine-mm', units);
  return (
    <div className="measure" data-distance={whole.toFixed(3)}>
      <p className="small soft">{say('measure.distance.how', stepsIn(units))}</p>
      <Tick label={say('measure.distance.snap')} isSelected={snaps} onChange={setSnaps} />
      <div role="status">
        <Facts
          facts={[
            [say('measure.distance.whole'), fine(whole), 'whole'],
            [say('measure.distance.x'), fine(Math.abs(dx)), 'x'],
            [say('measure.distance.y'), fine(Math.abs(dy)), 'y'],
          ]}
        />
      </div>
      <p className="small soft">{say('measure.finished')}</p>
      <p className="small soft">{say('measure.distance.resolution', { cell: fine(faces.cellMm) })}</p>
    </div>
  );
}
