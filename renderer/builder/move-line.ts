import type { Drill } from '../../sim-core/index.ts';
import { apartMm, headingAtEnd, jointsOf, lengthsOf, type PlanPoint, pointAtOf, rounded } from './path-joints.ts';

type Path = Drill['path'];
type Segment = Path['segments'][number];

/** No piece of the line is made shorter than this, mm. */
const SHORTEST_PIECE_MM = 1;
/** As the drill's schema has it. */
const LONGEST_LEAD_IN_MM = 200;
const FULL_TURN_DEG = 360;
const LEAST_TURN_DEG = 1;
/** What a new piece is like. */
const NEW_PIECE_MM = 30;
const NEW_RADIUS_MM = 20;

/** The joint that a closed line comes back to, or where the lead-in ends; null where no joint is there. */
export function meetingJoint(drill: Drill): number | null {
  const at = lengthsOf(drill.path).findIndex((length) => Math.abs(length - drill.leadInMm) < 0.01);
  return at < 0 ? null : at;
}

/** Whether the line ends where it has to meet itself. */
export function isClosed(drill: Drill): boolean {
  const meeting = meetingJoint(drill);
  const joints = jointsOf(drill.path);
  if (drill.finish !== 'close' || meeting === null) return false;
  return apartMm(joints.at(-1) as PlanPoint, joints[meeting] as PlanPoint) < 0.1;
}

const isFullTurn = (segment: Segment | undefined): boolean =>
  segment?.kind === 'arc' && Math.abs(segment.sweepDeg) > FULL_TURN_DEG - 0.01;

const shifted = (point: PlanPoint, dx: number, dy: number): PlanPoint => pointAtOf(point.xMm + dx, point.yMm + dy);

/** The path as it is, all of it, somewhere else. */
function moved(path: Path, dx: number, dy: number): Path {
  return {
    start: shifted(path.start, dx, dy),
    segments: path.segments.map((segment) =>
      segment.kind === 'line'
        ? { ...segment, to: shifted(segment.to, dx, dy) }
        : { ...segment, centre: shifted(segment.centre, dx, dy) },
    ),
  };
}

/** Puts a changed path into the drill: a closed line stays closed, a lead-in goes on ending at its joint. Unchanged where a piece would vanish or a lead-in grow too long. */
function withPath(drill: Drill, path: Path, meeting = meetingJoint(drill), closed = isClosed(drill)): Drill {
  const segments = [...path.segments];
  const last = segments.at(-1);
  if (closed && meeting !== null && last?.kind === 'line') {
    segments[segments.length - 1] = { kind: 'line', to: jointsOf(path)[meeting] as PlanPoint };
  }
  const next = { ...path, segments };
  const lengths = lengthsOf(next);
  if (lengths.some((length, n) => n > 0 && length - (lengths[n - 1] as number) < SHORTEST_PIECE_MM)) return drill;
  const leadInMm = drill.leadInMm > 0 && meeting !== null ? rounded(lengths[meeting] as number) : drill.leadInMm;
  return leadInMm > LONGEST_LEAD_IN_MM ? drill : { ...drill, path: next, leadInMm };
}

/** The drill with one joint of its line elsewhere: 0 is the start. The end of a turn stays on its circle; turns that follow go along. */
export function moveJoint(drill: Drill, joint: number, to: PlanPoint): Drill {
  const { path } = drill;
  const meeting = meetingJoint(drill);
  if (isClosed(drill) && meeting !== null && joint === path.segments.length && !isFullTurn(path.segments.at(-1))) {
    return moveJoint(drill, meeting, to);
  }
  const joints = jointsOf(path);
  const old = joints[joint] as PlanPoint;
  const segments = [...path.segments];
  let next: Path = { ...path, segments };
  const before = segments[joint - 1];
  if (joint === 0) next = { ...next, start: pointAtOf(to.xMm, to.yMm) };
  else if (before?.kind === 'line') segments[joint - 1] = { kind: 'line', to: pointAtOf(to.xMm, to.yMm) };
  else if (before?.kind === 'arc')
    segments[joint - 1] = { ...before, sweepDeg: sweepTo(joints[joint - 1] as PlanPoint, before, to) };
  const now = jointsOf(next)[joint] as PlanPoint;
  for (let n = joint; n < segments.length; n++) {
    const after = segments[n] as Segment;
    if (after.kind !== 'arc') break;
    segments[n] = { ...after, centre: shifted(after.centre, now.xMm - old.xMm, now.yMm - old.yMm) };
  }
  return withPath(drill, next, meeting);
}

/** The sweep, in its old sense, that ends in the direction of a place. */
function sweepTo(from: PlanPoint, arc: { centre: PlanPoint; sweepDeg: number }, to: PlanPoint): number {
  const angle = (p: PlanPoint) => (Math.atan2(p.yMm - arc.centre.yMm, p.xMm - arc.centre.xMm) * 180) / Math.PI;
  let sweep = angle(to) - angle(from);
  if (arc.sweepDeg > 0) while (sweep <= 0.5) sweep += FULL_TURN_DEG;
  else while (sweep >= -0.5) sweep -= FULL_TURN_DEG;
  // A drill takes turns of 1 to 360 degrees.
  const size = Math.min(FULL_TURN_DEG, Math.max(LEAST_TURN_DEG, Math.abs(sweep)));
  return rounded(Math.sign(sweep) * size);
}

/** The drill with the middle of a turn elsewhere. A full circle goes along with all of its line; another turn changes its radius. */
export function moveCentre(drill: Drill, index: number, to: PlanPoint): Drill {
  const { path } = drill;
  const arc = path.segments[index];
  if (arc?.kind !== 'arc') return drill;
  if (isFullTurn(arc)) return withPath(drill, moved(path, to.xMm - arc.centre.xMm, to.yMm - arc.centre.yMm));
  const segments = path.segments.with(index, { ...arc, centre: pointAtOf(to.xMm, to.yMm) });
  return withPath(drill, { ...path, segments });
}

/** The drill with a turn of another radius, from where it begins, or of another sweep. */
export function reshapeTurn(drill: Drill, index: number, change: { radiusMm?: number; sweepDeg?: number }): Drill {
  const { path } = drill;
  const arc = path.segments[index];
  const from = jointsOf(path)[index] as PlanPoint;
  if (arc?.kind !== 'arc') return drill;
  const share = change.radiusMm === undefined ? 1 : change.radiusMm / apartMm(from, arc.centre);
  const centre =
    share === 1
      ? arc.centre
      : pointAtOf(from.xMm + share * (arc.centre.xMm - from.xMm), from.yMm + share * (arc.centre.yMm - from.yMm));
  const segments = path.segments.with(index, { ...arc, centre, sweepDeg: change.sweepDeg ?? arc.sweepDeg });
  return withPath(drill, { ...path, segments });
}

/** The line goes on straight, to a place or a little way on; a closed one goes by way of it. */
export function addStraight(drill: Drill, at?: PlanPoint): Drill {
  const { path } = drill;
  const end = jointsOf(path).at(-1) as PlanPoint;
  const heading = headingAtEnd(path);
  const to = at ?? pointAtOf(end.xMm + NEW_PIECE_MM * Math.cos(heading), end.yMm + NEW_PIECE_MM * Math.sin(heading));
  const piece: Segment = { kind: 'line', to: pointAtOf(to.xMm, to.yMm) };
  const closing = isClosed(drill) && path.segments.at(-1)?.kind === 'line';
  const place = closing ? path.segments.length - 1 : path.segments.length;
  return withPath(drill, { ...path, segments: path.segments.toSpliced(place, 0, piece) });
}

/** The line goes on in a quarter turn to the left. */
export function addTurn(drill: Drill): Drill {
  const { path } = drill;
  const end = jointsOf(path).at(-1) as PlanPoint;
  const heading = headingAtEnd(path);
  const centre = pointAtOf(end.xMm - NEW_RADIUS_MM * Math.sin(heading), end.yMm + NEW_RADIUS_MM * Math.cos(heading));
  return withPath(
    drill,
    { ...path, segments: [...path.segments, { kind: 'arc', centre, sweepDeg: 90 }] },
    meetingJoint(drill),
    false,
  );
}

/** The line without one of its joints, and without the piece that led to it; without the start it begins where its first piece ended. */
export function removeJoint(drill: Drill, joint: number): Drill {
  const { path } = drill;
  if (path.segments.length < 2) return drill;
  const joints = jointsOf(path);
  const meeting = meetingJoint(drill);
  if (joint === 0) {
    const start = joints[1] as PlanPoint;
    return { ...withPath(drill, { start, segments: path.segments.slice(1) }, null, false), leadInMm: 0 };
  }
  const keeps = meeting !== null && joint > meeting;
  return withPath(
    keeps ? drill : { ...drill, leadInMm: 0 },
    { ...path, segments: path.segments.toSpliced(joint - 1, 1) },
    keeps ? meeting : 0,
  );
}

/** The same line cut from its other end; a guide stays where it stands. A lead-in has no other end. */
export function turnRound(drill: Drill): Drill {
  if (drill.leadInMm > 0) return drill;
  const { path, guide } = drill;
  const joints = jointsOf(path).map((joint) => pointAtOf(joint.xMm, joint.yMm));
  const segments = path.segments
    .map(
      (segment, n): Segment =>
        segment.kind === 'line' ? { kind: 'line', to: joints[n] as PlanPoint } : { ...segment, sweepDeg: -segment.sweepDeg },
    )
    .toReversed();
  const turnedGuide: Drill['guide'] = 'side' in guide ? { ...guide, side: guide.side === 'left' ? 'right' : 'left' } : guide;
  return { ...drill, path: { start: joints.at(-1) as PlanPoint, segments }, guide: turnedGuide };
}
