import type { Drill } from '../../sim-core/index.ts';
import { lengthsOf, type PlanPoint, pointAtOf, rounded } from './path-joints.ts';

/** Lines that a drill can begin from; each can be pulled about afterwards. */
export const LINE_SHAPES = ['across', 'corner', 'bend', 'round-hole', 'four-sided-hole'] as const;
export type LineShape = (typeof LINE_SHAPES)[number];

type Shaped = Pick<Drill, 'path' | 'start' | 'finish' | 'leadInMm'>;

/** Length of the way from the pierce to the outline of a hole, mm; half the room where there is less. */
const LEAD_IN_MM = 10;

const line = (to: PlanPoint) => ({ kind: 'line', to }) as const;
const whole = (value: number) => Math.round(value);

function open(start: PlanPoint, segments: Drill['path']['segments']): Shaped {
  return { path: { start, segments }, start: 'edge', finish: 'run-off', leadInMm: 0 };
}

function hole(drill: Drill, start: PlanPoint, segments: Drill['path']['segments']): Shaped {
  const path = { start, segments };
  const pierce = drill.start === 'edge' ? 'rolling-pierce' : drill.start;
  return { path, start: pierce, finish: 'close', leadInMm: rounded(lengthsOf(path)[1] ?? 0) };
}

/** The drill with a new line of that shape, fitted to its plate, and with the start and the finish that belong to it. */
export function withShape(drill: Drill, shape: LineShape): Drill {
  return { ...drill, ...shaped(drill, shape) };
}

function shaped(drill: Drill, shape: LineShape): Shaped {
  const { lengthMm: long, widthMm: wide } = drill.plate;
  const y = whole(wide / 2);
  switch (shape) {
    case 'across':
      return open(pointAtOf(0, y), [line(pointAtOf(long, y))]);
    case 'corner':
      return open(pointAtOf(0, y), [line(pointAtOf(whole(long / 2), y)), line(pointAtOf(whole(long / 2), wide))]);
    case 'bend': {
      const radius = whole(Math.min(long, wide) / 4);
      const x = whole(long / 2) - radius;
      const turn = { kind: 'arc', centre: pointAtOf(x, y + radius), sweepDeg: 90 } as const;
      return open(pointAtOf(0, y), [line(pointAtOf(x, y)), turn, line(pointAtOf(x + radius, wide))]);
    }
    case 'round-hole': {
      const radius = whole(Math.min(long, wide) * 0.28);
      const centre = pointAtOf(whole(long / 2), y);
      const leadIn = Math.min(LEAD_IN_MM, radius / 2);
      const meets = pointAtOf(centre.xMm + radius, centre.yMm);
      const turn = { kind: 'arc', centre, sweepDeg: 360 } as const;
      return hole(drill, pointAtOf(meets.xMm - leadIn, centre.yMm), [line(meets), turn]);
    }
    case 'four-sided-hole': {
      const [left, right] = [whole(long * 0.25), whole(long * 0.75)];
      const [near, far] = [whole(wide * 0.25), whole(wide * 0.75)];
      const middle = whole(long / 2);
      const leadIn = Math.min(LEAD_IN_MM, (far - near) / 2);
      const corners = [pointAtOf(right, near), pointAtOf(right, far), pointAtOf(left, far), pointAtOf(left, near)];
      const meets = pointAtOf(middle, near);
      return hole(drill, pointAtOf(middle, near + leadIn), [line(meets), ...corners.map(line), line(meets)]);
    }
  }
}
