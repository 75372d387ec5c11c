import type { Drill, KerfQuality } from '../../sim-core/index.ts';
import { levelSign, UNCUT_MARK } from '../scene/level-paint.ts';
import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { LevelSwatch } from '../ui/LevelSwatch.tsx';
import { figure as figureOf, quantity, type UnitSystem } from '../ui/units.ts';
import { drossWords, type QualityFigure, type QualityFigureId } from './quality-figures.ts';

export interface QualityPanelProps {
  drill: Drill;
  quality: KerfQuality;
  figures: readonly QualityFigure[];
  figure: QualityFigure;
  units: UnitSystem;
  onFigure(id: QualityFigureId): void;
}

/** The cut face: which figure the map shows and what its levels mean, and the whole cut in short. */
export function QualityPanel({ drill, quality, figures, figure, units, onFigure }: QualityPanelProps) {
  const { summary } = quality;
  const groove = drill.intended.grooveDepthMm !== null;
  const facts: [string, string][] = [
    [
      say('quality.kerf'),
      `${figureOf(summary.topWidthMm, 'fine-mm', units).value} / ${quantity(summary.bottomWidthMm, 'fine-mm', units)}`,
    ],
    [say('quality.dross'), drossWords(summary, units)],
    [say('quality.left'), leftWords(summary, units)],
    [say('quality.start'), endWords(summary.start, units)],
    [say('quality.end'), endWords(summary.end, units)],
  ];
  const grooveFacts: [string, string][] = [
    [say('quality.groove-depth'), quantity(summary.depthMm, 'fine-mm', units)],
    [say('quality.groove-width'), quantity(summary.topWidthMm, 'fine-mm', units)],
  ];
  return (
    <div className="quality" data-figure={figure.id}>
      <p className="notice">{say('quality.estimates')}</p>
      <Choice<QualityFigureId>
        label={say('quality.figure')}
        value={figure.id}
        onChange={onFigure}
        options={figures.map(({ id }) => ({ value: id, label: say(`quality.figure.${id}`) }))}
      />
      <section>
        <h3>{say('quality.legend')}</h3>
        <ol className="legend">
          {figure.legend(units).map((words, index) => (
            <li key={words}>
              <LevelSwatch level={index + 1} />
              <span>
                <strong className="figure">{index + 1}</strong> {words}
              </span>
            </li>
          ))}
          {figure.marksUncut && (
            <li>
              <LevelSwatch level={UNCUT_MARK} />
              <span>
                <strong className="figure">{levelSign(UNCUT_MARK)}</strong> {say('quality.not-through')}
              </span>
            </li>
          )}
        </ol>
        <p className="small soft">{say(`quality.about.${figure.id}`)}</p>
      </section>
      <dl className="facts">
        {(groove ? grooveFacts : facts).map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {!groove && <p className="small soft">{say('quality.source')}</p>}
    </div>
  );
}

function leftWords({ uncutSpots, uncutMm }: KerfQuality['summary'], units: UnitSystem): string {
  if (uncutSpots.length === 0) return say('quality.left.none');
  const key = uncutSpots.length === 1 ? 'quality.left.one' : 'quality.left.many';
  return say(key, { count: uncutSpots.length, value: quantity(uncutMm, 'mm', units) });
}

function endWords(defect: KerfQuality['summary']['start'], units: UnitSystem): string {
  return say(`quality.end.${defect.kind}`, { value: quantity(defect.mm, 'mm', units) });
}
