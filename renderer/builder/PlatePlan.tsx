import { type PointerEvent, useMemo, useRef } from 'react';
import { type Drill, pathGeometry, setupFromDrill } from '../../sim-core/index.ts';
import { SurfacePatterns } from '../rig-check/SurfacePatterns.tsx';
import { guideShape } from '../scene/guide-shape.ts';
import { say } from '../text/say.ts';
import { MM_PER_INCH, quantity, type UnitSystem } from '../ui/units.ts';
import { useUnits } from '../ui/use-units.ts';
import { FINE_STEP_MM, LONG_STEP_MM, PlanHandle, STEP_MM } from './PlanHandle.tsx';
import { lengthsOf, type PlanPoint } from './path-joints.ts';
import { type PlanPlace, placesOf } from './plan-places.ts';

const MARGIN_MM = 10;
/** The picture reaches this far beside the plate at most. */
const RIM_MM = 18;
/** A handle reaches so far of the picture's width. */
const REACH = 1 / 42;
/** More openings are refused, and the plan is not held up by drawing them. */
const MOST_DRAWN = 420;
/** Ruler beside the plate: a mark every so many of the core's mm, a figure at every so manieth mark, in the reader's measures. */
const RULERS: Record<UnitSystem, { everyMm: number; figureEvery: number; unitMm: number }> = {
  metric: { everyMm: 10, figureEvery: 5, unitMm: 1 },
  inch: { everyMm: MM_PER_INCH / 2, figureEvery: 4, unitMm: MM_PER_INCH },
};
const WALK_MM = 1;
const ARROWS_EVERY_MM = 45;

const points = (list: readonly { xMm: number; yMm: number }[]) => list.map((p) => `${p.xMm},${p.yMm}`).join(' ');

/** The line point by point, split where the lead-in ends, and where arrows stand on it; nothing while it has no length. */
function drawnLine(drill: Drill) {
  if ((lengthsOf(drill.path).at(-1) ?? 0) <= WALK_MM) return null;
  let geometry: ReturnType<typeof pathGeometry>;
  try {
    geometry = pathGeometry(drill.path);
  } catch {
    // A piece without a length: the list of problems says which.
    return null;
  }
  const along = (from: number, to: number) => {
    const steps = Math.max(1, Math.ceil((to - from) / WALK_MM));
    return Array.from({ length: steps + 1 }, (_, n) => geometry.pointAt(from + ((to - from) * n) / steps));
  };
  const leadIn = Math.min(drill.leadInMm, geometry.lengthMm);
  const arrows = Math.max(1, Math.round((geometry.lengthMm - leadIn) / ARROWS_EVERY_MM));
  return {
    leadIn: leadIn > 0 ? along(0, leadIn) : [],
    line: along(leadIn, geometry.lengthMm),
    arrows: Array.from({ length: arrows }, (_, n) =>
      geometry.pointAt(leadIn + ((geometry.lengthMm - leadIn) * (n + 0.5)) / arrows),
    ),
  };
}

/** A place, or where the rim of the picture is nearest to one that lies far beside the plate. */
function atRim(place: PlanPlace, lengthMm: number, widthMm: number): PlanPoint {
  const hold = (value: number, high: number) => Math.min(high + RIM_MM, Math.max(-RIM_MM, value));
  const [xMm, yMm] = [hold(place.xMm, lengthMm), hold(place.yMm, widthMm)];
  return xMm === place.xMm && yMm === place.yMm ? place : { xMm, yMm };
}

/** The plate from above with everything on it; places can be pulled about. The form beside it says and does the same. */
export function PlatePlan({ drill }: { drill: Drill }) {
  const units = useUnits();
  const picture = useRef<SVGSVGElement>(null);
  const { surface } = drill.plate;
  const { lengthMm, widthMm, cutouts: holes = [] } = useMemo(() => setupFromDrill(drill, 0), [drill]);
  const cutouts = holes.length > MOST_DRAWN ? drill.plate.cutouts : holes;
  const places = useMemo(() => placesOf(drill), [drill]);
  const drawn = useMemo(() => drawnLine(drill), [drill]);
  const guide = useMemo(() => (drawn ? guideShape(drill, null) : null), [drill, drawn]);
  const shown = places.map((place) => atRim(place, lengthMm, widthMm));
  const xs = [-6, lengthMm, ...shown.map((place) => place.xMm)];
  const ys = [-6, widthMm, ...shown.map((place) => place.yMm)];
  const [left, right] = [Math.min(...xs) - MARGIN_MM, Math.max(...xs) + MARGIN_MM];
  const [near, far] = [Math.min(...ys) - MARGIN_MM, Math.max(...ys) + MARGIN_MM];
  const reachMm = Math.max(right - left, (far - near) * 1.7) * REACH;
  const figureMm = reachMm * 0.85;

  function plateAt(event: PointerEvent) {
    const matrix = picture.current?.getScreenCTM();
    if (!matrix) return { xMm: 0, yMm: 0 };
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    return { xMm: Math.round(at.x), yMm: Math.round(-at.y) };
  }

  const { everyMm, figureEvery, unitMm } = RULERS[units];
  const rule = (longMm: number) =>
    Array.from({ length: Math.floor(longMm / everyMm) + 1 }, (_, n) => ({
      mm: n * everyMm,
      figure: n % figureEvery === 0 ? Math.round((n * everyMm) / unitMm) : null,
    }));
  return (
    <figure className="plan">
      {/* biome-ignore lint/a11y/useSemanticElements: the group is a drawing */}
      <svg
        ref={picture}
        className="plan-picture"
        viewBox={`${left} ${-far} ${right - left} ${far - near}`}
        role="group"
        aria-label={say('builder.plan')}
      >
        <SurfacePatterns />
        <g transform="scale(1 -1)">
          <rect className="plan-plate" width={lengthMm} height={widthMm} fill={`url(#surface-${surface})`} />
          {cutouts.map((outline) => (
            <polygon key={points(outline)} className="plan-hole" points={points(outline)} />
          ))}
          {rule(lengthMm).map(({ mm, figure }) => (
            <path key={`x${mm}`} className="plan-rule" d={`M${mm} 0v${figure === null ? -2 : -4}`} />
          ))}
          {rule(widthMm).map(({ mm, figure }) => (
            <path key={`y${mm}`} className="plan-rule" d={`M0 ${mm}h${figure === null ? -2 : -4}`} />
          ))}
          {guide && guide.edge.length > 0 && (
            <polygon className="plan-guide" points={points([...guide.edge, ...guide.back.toReversed()])} />
          )}
          {guide?.pin && drawn && (
            <path
              className="plan-arm"
              d={`M${guide.pin.xMm} ${guide.pin.yMm}L${drawn.line[0]?.xMm ?? 0} ${drawn.line[0]?.yMm ?? 0}`}
            />
          )}
          {drawn && <polyline className="plan-line-under" points={points(drawn.line)} />}
          {drawn && <polyline className="plan-line" points={points(drawn.line)} />}
          {drawn && <polyline className="plan-lead-in" points={points(drawn.leadIn)} />}
          {drawn?.arrows.map((at) => (
            <path
              key={`${at.xMm} ${at.yMm}`}
              className="plan-arrow"
              d="M-3-3.2 3.4 0-3 3.2z"
              transform={`translate(${at.xMm} ${at.yMm}) rotate(${(at.headingRad * 180) / Math.PI})`}
            />
          ))}
        </g>
        {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of a drawing takes no focus */}
        <g aria-hidden="true" className="plan-figures" fontSize={figureMm}>
          {rule(lengthMm).map(({ mm, figure }) => (
            <text key={mm} x={mm} y={5 + figureMm} textAnchor="middle">
              {figure}
            </text>
          ))}
          {rule(widthMm).map(({ mm, figure }) => (
            <text key={mm} x={-5.5} y={-mm} dy="0.35em" textAnchor="end">
              {mm > 0 && figure}
            </text>
          ))}
        </g>
        {places.map((place, n) => (
          <PlanHandle key={place.id} place={place} shownAt={shown[n] ?? place} reachMm={reachMm} plateAt={plateAt} />
        ))}
      </svg>
      <figcaption id="plan-keys" className="soft small">
        {say('builder.plan.keys', {
          step: quantity(STEP_MM, 'fine-mm', units),
          long: quantity(LONG_STEP_MM, 'fine-mm', units),
          fine: quantity(FINE_STEP_MM, 'fine-mm', units),
        })}
      </figcaption>
    </figure>
  );
}
