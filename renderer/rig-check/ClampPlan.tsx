import { Label, Radio, RadioGroup } from 'react-aria-components';
import { type Drill, setupFromDrill } from '../../sim-core/index.ts';
import { markedLine } from '../drills/marked-line.ts';
import { say } from '../text/say.ts';
import { letteredSpots, spotWords } from './clamp-spots.ts';
import { SurfacePatterns } from './SurfacePatterns.tsx';

const NOWHERE = 'nowhere';
const MARGIN_MM = 16;

export interface ClampPlanProps {
  drill: Drill;
  value: string | null;
  onChange(spot: string | null): void;
}

const points = (list: readonly { xMm: number; yMm: number }[]) => list.map((p) => `${p.xMm},${p.yMm}`).join(' ');

/**
 * Where the return clamp bites: a plan of the plate with the line to be cut and the spots on it. Which piece will fall is for the
 * trainee to see. The list beside the plan says the same in words; pressing a spot of the plan chooses it too.
 */
export function ClampPlan({ drill, value, onChange }: ClampPlanProps) {
  const { surface } = drill.plate;
  const { lengthMm, widthMm, cutouts = [] } = setupFromDrill(drill, 0);
  const spots = letteredSpots(drill);
  const xs = [0, lengthMm, ...spots.map((spot) => spot.xMm)];
  const ys = [0, widthMm, ...spots.map((spot) => spot.yMm)];
  const [left, right] = [Math.min(...xs) - MARGIN_MM, Math.max(...xs) + MARGIN_MM];
  const [near, far] = [Math.min(...ys) - MARGIN_MM, Math.max(...ys) + MARGIN_MM];
  const size = Math.max(right - left, (far - near) * 1.6) / 26;
  return (
    <div className="clamp">
      <svg className="clamp-plan" viewBox={`${left} ${-far} ${right - left} ${far - near}`} aria-hidden="true" focusable="false">
        <SurfacePatterns />
        <g transform="scale(1 -1)">
          <rect className="clamp-plate" width={lengthMm} height={widthMm} fill={`url(#surface-${surface})`} />
          {cutouts.map((outline) => (
            <polygon key={points(outline)} className="sketch-hole" points={points(outline)} />
          ))}
          <polyline className="clamp-line" points={points(markedLine(drill))} />
        </g>
        {spots.map((spot) => (
          // biome-ignore lint/a11y/noStaticElementInteractions: the list beside the plan does the same for keys and readers
          <g
            key={spot.id}
            className={spot.id === value ? 'clamp-spot clamp-spot-on' : 'clamp-spot'}
            transform={`translate(${spot.xMm} ${-spot.yMm})`}
            onClick={() => onChange(spot.id)}
          >
            <rect
              x={-1.6 * size}
              y={-1.3 * size}
              width={3.2 * size}
              height={2.6 * size}
              fill={`url(#surface-${spot.surface})`}
              strokeWidth={size / 6}
            />
            <circle r={0.95 * size} strokeWidth={size / 8} />
            <text fontSize={1.4 * size} textAnchor="middle" dy="0.36em">
              {spot.letter}
            </text>
          </g>
        ))}
      </svg>
      <RadioGroup
        className="choice choice-list"
        value={value ?? NOWHERE}
        onChange={(next) => onChange(next === NOWHERE ? null : next)}
      >
        <Label className="choice-label">{say('rig.clamp')}</Label>
        <Radio value={NOWHERE} className="choice-option">
          {say('rig.clamp.nowhere')}
        </Radio>
        {spots.map((spot) => (
          <Radio key={spot.id} value={spot.id} className="choice-option">
            {spotWords(drill, spot)}
          </Radio>
        ))}
      </RadioGroup>
    </div>
  );
}
