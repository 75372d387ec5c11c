import { type Drill, setupFromDrill } from '../../sim-core/index.ts';
import { markedLine } from './marked-line.ts';

const points = (list: readonly { xMm: number; yMm: number }[]) => list.map((p) => `${p.xMm},${p.yMm}`).join(' ');

/** The plate from above with the line to be cut; a picture beside words that say the same. */
export function PlateSketch({ drill }: { drill: Drill }) {
  const { lengthMm, widthMm, cutouts = [] } = setupFromDrill(drill, 0);
  const line = markedLine(drill);
  const start = line[0] ?? { xMm: 0, yMm: 0 };
  return (
    <svg className="plate-sketch" viewBox={`-6 -6 ${lengthMm + 12} ${widthMm + 12}`} aria-hidden="true" focusable="false">
      {/* Screen rows run down, the plate's y runs up. */}
      <g transform={`translate(0 ${widthMm}) scale(1 -1)`}>
        <rect className="sketch-plate" width={lengthMm} height={widthMm} />
        {cutouts.map((outline) => (
          <polygon key={points(outline)} className="sketch-hole" points={points(outline)} />
        ))}
        <polyline className="sketch-line" points={points(line)} />
        <circle className="sketch-start" cx={start.xMm} cy={start.yMm} r={5} />
      </g>
    </svg>
  );
}
