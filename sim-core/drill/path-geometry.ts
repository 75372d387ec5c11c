import { abs, atan2, clamp, cos, PI, RAD_PER_DEG, sin, TAU } from '../math/elementary.ts';
import type { PointMm } from '../run/types.ts';
import type { DrillPath } from './schema.ts';

/** A place on the path and the direction of the cut there, radians from +x toward +y. */
export interface PathPlace extends PointMm {
  headingRad: number;
}

/** The place of the path nearest to a point. */
export interface PathFoot {
  /** Arc length of the place, 0 to lengthMm. */
  sMm: number;
  /** How far the point lies to the left of the cut; beside the ends of the path, to the left of its tangent there. */
  offsetMm: number;
  /** How far the point lies before the start (negative) or past the end (positive) of the path along its tangent; else 0. */
  beyondMm: number;
  headingRad: number;
}

/** The circle that a place of the path lies on. */
export interface PathTurn {
  centre: PointMm;
  radiusMm: number;
}

/** The line to be cut, by arc length: 0 at its start, `lengthMm` at its end. Exact for lines and arcs. */
export interface PathGeometry {
  readonly lengthMm: number;
  /** Before 0 and beyond the end the path goes on straight along its tangent. */
  pointAt(sMm: number): PathPlace;
  /** sMm lies in 0..lengthMm. Where `nearMm` is given, only the path within `reachMm` of it is looked at. */
  nearest(xMm: number, yMm: number, nearMm?: number, reachMm?: number): PathFoot;
  /** Arc lengths where one segment ends and the next begins. */
  readonly jointsMm: readonly number[];
  /** The turn at a place, at a joint the one that begins there; null on a straight. */
  turnAt(sMm: number): PathTurn | null;
}

interface Piece {
  fromMm: number;
  lengthMm: number;
  at(sMm: number): PathPlace;
  /** Arc length within the piece of the place nearest to (x, y), between the two given. */
  foot(xMm: number, yMm: number, lowMm: number, highMm: number): number;
  turn: PathTurn | null;
}

/** Throws RangeError where a segment has no length. */
export function pathGeometry(path: DrillPath): PathGeometry {
  const pieces: Piece[] = [];
  let from: PointMm = path.start;
  let lengthMm = 0;
  for (const [index, segment] of path.segments.entries()) {
    const piece =
      segment.kind === 'line'
        ? linePiece(from, segment.to, lengthMm)
        : arcPiece(from, segment.centre, segment.sweepDeg, lengthMm);
    if (!(piece.lengthMm > 1e-6)) throw new RangeError(`Segment ${index + 1} of the path has no length.`);
    pieces.push(piece);
    lengthMm += piece.lengthMm;
    from = piece.at(piece.lengthMm);
  }
  return {
    lengthMm,
    jointsMm: pieces.slice(1).map((piece) => piece.fromMm),
    pointAt: (sMm) => pointAt(pieces, lengthMm, sMm),
    turnAt: (sMm) => pieceAt(pieces, clamp(sMm, 0, lengthMm)).turn,
    nearest: (xMm, yMm, nearMm = lengthMm / 2, reachMm = lengthMm) => nearest(pieces, lengthMm, xMm, yMm, nearMm, reachMm),
  };
}

function pointAt(pieces: readonly Piece[], lengthMm: number, sMm: number): PathPlace {
  const inside = clamp(sMm, 0, lengthMm);
  const piece = pieceAt(pieces, inside);
  const place = piece.at(clamp(inside - piece.fromMm, 0, piece.lengthMm));
  const beyondMm = sMm - inside;
  if (beyondMm === 0) return place;
  return {
    xMm: place.xMm + beyondMm * cos(place.headingRad),
    yMm: place.yMm + beyondMm * sin(place.headingRad),
    headingRad: place.headingRad,
  };
}

function pieceAt(pieces: readonly Piece[], sMm: number): Piece {
  let piece = pieces[0];
  for (const candidate of pieces) if (candidate.fromMm <= sMm) piece = candidate;
  return piece;
}

function nearest(
  pieces: readonly Piece[],
  lengthMm: number,
  xMm: number,
  yMm: number,
  nearMm: number,
  reachMm: number,
): PathFoot {
  const lowMm = clamp(nearMm - reachMm, 0, lengthMm);
  const highMm = clamp(nearMm + reachMm, 0, lengthMm);
  let best: PathFoot | null = null;
  let bestSquare = Number.POSITIVE_INFINITY;
  for (const piece of pieces) {
    const low = clamp(lowMm - piece.fromMm, 0, piece.lengthMm);
    const high = clamp(highMm - piece.fromMm, 0, piece.lengthMm);
    if (piece.fromMm > highMm || piece.fromMm + piece.lengthMm < lowMm) continue;
    const s = piece.foot(xMm, yMm, low, high);
    const place = piece.at(s);
    const dx = xMm - place.xMm;
    const dy = yMm - place.yMm;
    const square = dx * dx + dy * dy;
    if (square >= bestSquare) continue;
    bestSquare = square;
    const left = dy * cos(place.headingRad) - dx * sin(place.headingRad);
    const along = dx * cos(place.headingRad) + dy * sin(place.headingRad);
    const sMm = piece.fromMm + s;
    // Inside the path the foot is square to it; at a corner between two segments it is not, and the distance counts.
    const beyondMm = (sMm <= 0 && along < 0) || (sMm >= lengthMm && along > 0) ? along : 0;
    const distance = beyondMm === 0 ? Math.sqrt(square) : abs(left);
    best = { sMm, offsetMm: left < 0 ? -distance : distance, beyondMm, headingRad: place.headingRad };
  }
  if (!best) throw new RangeError('The part of the path that was asked for is empty.');
  return best;
}

function linePiece(from: PointMm, to: PointMm, fromMm: number): Piece {
  const dx = to.xMm - from.xMm;
  const dy = to.yMm - from.yMm;
  const lengthMm = Math.sqrt(dx * dx + dy * dy);
  const ux = dx / lengthMm;
  const uy = dy / lengthMm;
  const headingRad = atan2(dy, dx);
  return {
    fromMm,
    lengthMm,
    at: (s) => ({ xMm: from.xMm + s * ux, yMm: from.yMm + s * uy, headingRad }),
    turn: null,
    foot: (x, y, low, high) => clamp((x - from.xMm) * ux + (y - from.yMm) * uy, low, high),
  };
}

function arcPiece(from: PointMm, centre: PointMm, sweepDeg: number, fromMm: number): Piece {
  const rx = from.xMm - centre.xMm;
  const ry = from.yMm - centre.yMm;
  const radiusMm = Math.sqrt(rx * rx + ry * ry);
  const startRad = atan2(ry, rx);
  const turn = sweepDeg < 0 ? -1 : 1;
  const lengthMm = radiusMm * abs(sweepDeg) * RAD_PER_DEG;
  return {
    fromMm,
    lengthMm,
    at: (s) => {
      const angle = startRad + (turn * s) / radiusMm;
      const heading = angle + (turn * PI) / 2;
      return {
        xMm: centre.xMm + radiusMm * cos(angle),
        yMm: centre.yMm + radiusMm * sin(angle),
        headingRad: heading > PI ? heading - TAU : heading <= -PI ? heading + TAU : heading,
      };
    },
    turn: { centre, radiusMm },
    foot: (x, y, low, high) => {
      // Angle from the start in the direction of the turn, 0 to 2 pi.
      let angle = turn * (atan2(y - centre.yMm, x - centre.xMm) - startRad);
      while (angle < 0) angle += TAU;
      while (angle >= TAU) angle -= TAU;
      const along = angle * radiusMm;
      if (along >= low && along <= high) return along;
      // Outside the stretch: the end that is nearer round the circle, either way.
      const round = TAU * radiusMm;
      const past = along > high ? along - high : along + round - high;
      const before = along < low ? low - along : low + round - along;
      return past <= before ? high : low;
    },
  };
}
