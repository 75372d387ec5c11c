import { type Drill, TICK_HZ } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { clock, quantity, type UnitSystem } from '../ui/units.ts';
import { placeAt } from './measure/cut-places.ts';
import { MeasurePanel } from './measure/MeasurePanel.tsx';
import { type CutFace, FACE_TOOLS, type FaceTool } from './measure/use-cut-face.ts';
import { QualityPanel } from './QualityPanel.tsx';

export interface FacePanelProps {
  drill: Drill;
  face: CutFace;
  units: UnitSystem;
  onGo(tick: number): void;
}

/** The cut part: its quality map, or what is measured on it. */
export function FacePanel({ drill, face, units, onGo }: FacePanelProps) {
  return (
    <div className="face" data-tool={face.tool}>
      <Choice<FaceTool>
        label={say('measure.tool')}
        value={face.tool}
        onChange={face.setTool}
        options={FACE_TOOLS.map((tool) => ({ value: tool, label: say(`measure.tool.${tool}`) }))}
      />
      {face.tool === 'map' ? (
        <>
          <ShownPlace face={face} units={units} />
          <QualityPanel
            drill={drill}
            quality={face.quality}
            figures={face.figures}
            figure={face.figure}
            units={units}
            onFigure={face.setFigure}
          />
        </>
      ) : (
        <MeasurePanel drill={drill} face={face} units={units} onGo={onGo} />
      )}
    </div>
  );
}

/** Where on the map the replay is. */
function ShownPlace({ face, units }: { face: CutFace; units: UnitSystem }) {
  const { shownMm, quality } = face;
  const tick = shownMm === null ? 0 : (placeAt(quality.perMm, shownMm)?.tick ?? 0);
  return (
    <div className="face-place" data-shown={shownMm === null ? '' : shownMm.toFixed(2)}>
      <p>
        {shownMm === null ? (
          say('measure.map.away')
        ) : (
          <>
            <strong className="figure">{say('measure.spot.says', { way: quantity(shownMm, 'mm', units) })}.</strong>{' '}
            {tick > 0 ? say('measure.map.moment', { time: clock(tick / TICK_HZ) }) : say('measure.map.no-moment')}
          </>
        )}
      </p>
      <p className="small soft">{say('measure.map.how')}</p>
    </div>
  );
}
