import { MATERIALS, type SimulationSetup } from '../../sim-core/index.ts';
import type { PiecePose } from './fall-pose.ts';
import { HANGING_PIECE } from './piece-number.ts';
import type { PlateField } from './plate-field.ts';
import type { MarkedLine } from './skin-canvas.ts';

/**
 * A piece that a last bit of metal holds. For the eye only: the core knows metal that is joined and metal that has fallen, and
 * nothing between. What is joined by the rest of the marked line alone is read from the metal as it is; how far it sags is worked
 * out from its weight and from the section that is left. Not known, and so taken as fixed, is how hot that section is.
 */
export interface Hang extends PiecePose {
  tabMm: number;
  areaMm2: number;
}

/** A longer rest of the line holds whatever hangs on it without a sign. */
const WATCHED_TAB_MM = 2.5;
const SAMPLE_MM = 0.2;
/** The kerf may run beside the marked line by this much. */
const BESIDE_MM = 1.6;
/** The rest of the line is taken to reach this far into the kerf at both its ends, so that it closes the outline. */
const INTO_KERF_MM = 2;
const CLOSED_WITHIN_MM = 1.5;
const LEAST_AREA_MM2 = 25;
const GRAVITY_MM_PER_S2 = 9810;
/** Stress at which metal that was beside the arc a moment ago bends, N/mm2. Design default. */
const HOT_STRENGTH_N_PER_MM2 = 30;
const SAG_HIGH_RAD = 0.1;

/** Angle of a piece of this weight, N, whose centre is so far from a section: nothing to see until the section nearly gives way. */
export function sagRad(weightN: number, armMm: number, tabMm: number, thicknessMm: number): number {
  const bears = (HOT_STRENGTH_N_PER_MM2 * tabMm * thicknessMm * thicknessMm) / 4;
  const load = Math.min(1, (weightN * armMm) / bears);
  return SAG_HIGH_RAD * load * load;
}

interface LinePoint {
  xMm: number;
  yMm: number;
}

/** The marked line in short equal steps. */
function sampled(line: MarkedLine): LinePoint[] {
  const points: LinePoint[] = [];
  for (let n = 1; n < line.length; n += 1) {
    const [a, b] = [line[n - 1] as LinePoint, line[n] as LinePoint];
    const steps = Math.max(1, Math.round(Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm) / SAMPLE_MM));
    for (let k = 0; k < steps; k += 1) {
      points.push({ xMm: a.xMm + ((b.xMm - a.xMm) * k) / steps, yMm: a.yMm + ((b.yMm - a.yMm) * k) / steps });
    }
  }
  return points;
}

function cellAt({ grid, stride }: PlateField, xMm: number, yMm: number): number {
  const column = Math.floor((xMm - grid.x0Mm) / grid.cellMm);
  const row = Math.floor((yMm - grid.y0Mm) / grid.cellMm);
  return column < 0 || row < 0 || column >= grid.nx || row >= grid.ny ? -1 : row * stride + column;
}

function isThrough(field: PlateField, cell: number): boolean {
  if (cell < 0) return true;
  return (field.topDepthMm[cell] as number) + (field.bottomRiseMm[cell] as number) > field.thicknessMm - 0.05;
}

export interface HangWatch {
  /** Looks at the metal as it is now, and marks the hanging piece in the field; null while nothing hangs by little. */
  look(fallenPieces: number): Hang | null;
}

export function createHangWatch(setup: SimulationSetup, line: MarkedLine, field: PlateField): HangWatch {
  const points = sampled(line);
  const [first, last] = [line[0], line.at(-1)];
  const closed = !!first && !!last && Math.hypot(first.xMm - last.xMm, first.yMm - last.yMm) < CLOSED_WITHIN_MM;
  const { grid, stride } = field;
  const supports = setup.supports ?? [];
  const densityGPerMm3 = MATERIALS[setup.material].densityGPerMm3;

  function isCut(n: number): boolean {
    const at = points[n] as LinePoint;
    const before = points[Math.max(0, n - 1)] as LinePoint;
    const after = points[Math.min(points.length - 1, n + 1)] as LinePoint;
    const length = Math.hypot(after.xMm - before.xMm, after.yMm - before.yMm) || 1;
    const [acrossX, acrossY] = [(before.yMm - after.yMm) / length, (after.xMm - before.xMm) / length];
    for (let off = -BESIDE_MM; off <= BESIDE_MM; off += grid.cellMm) {
      if (isThrough(field, cellAt(field, at.xMm + acrossX * off, at.yMm + acrossY * off))) return true;
    }
    return false;
  }

  /** The one stretch of the line that is not cut, as points in a row; null where it is too long, or there is more than one. */
  function restOfLine(): { from: number; count: number } | null {
    let from = -1;
    let count = 0;
    let runs = 0;
    let cutBefore = closed ? isCut(points.length - 1) : true;
    for (let n = 0; n < points.length; n += 1) {
      const cut = isCut(n);
      if (!cut) count += 1;
      if (!cut && cutBefore) {
        runs += 1;
        from = n;
      }
      if (runs > 1 || count * SAMPLE_MM > WATCHED_TAB_MM) return null;
      cutBefore = cut;
    }
    return { from: Math.max(0, from), count };
  }

  /** Metal that the supports reach without crossing the rest of the line: 1; what closes the line: 2. */
  function heldByPlate(from: number, count: number): Uint8Array {
    const state = new Uint8Array(field.topDepthMm.length);
    const beyond = Math.round(INTO_KERF_MM / SAMPLE_MM);
    for (let k = -beyond; k < count + beyond; k += 1) {
      const n = closed ? (from + k + points.length) % points.length : from + k;
      const at = points[n];
      if (!at) continue;
      const cell = cellAt(field, at.xMm, at.yMm);
      if (cell < 0) continue;
      // Two cells wide, so that a step along a diagonal does not slip through.
      state[cell] = 2;
      state[cell + 1] = 2;
    }
    const waiting: number[] = [];
    const reach = (cell: number) => {
      if (state[cell] !== 0 || isThrough(field, cell)) return;
      state[cell] = 1;
      waiting.push(cell);
    };
    for (const { xMm, yMm } of supports) {
      const cell = cellAt(field, xMm, yMm);
      if (cell >= 0) reach(cell);
    }
    for (let cell = waiting.pop(); cell !== undefined; cell = waiting.pop()) {
      const column = cell % stride;
      const row = (cell - column) / stride;
      if (column > 0) reach(cell - 1);
      if (column < grid.nx - 1) reach(cell + 1);
      if (row > 0) reach(cell - stride);
      if (row < grid.ny - 1) reach(cell + stride);
    }
    return state;
  }

  let mask: Uint8Array | null = null;
  let area = { mm2: 0, xMm: 0, yMm: 0 };
  let fallenBefore = 0;
  let hang: Hang | null = null;

  function findPiece(from: number, count: number): void {
    const state = heldByPlate(from, count);
    const found = new Uint8Array(state.length);
    let [cells, sumX, sumY] = [0, 0, 0];
    for (let row = 0; row < grid.ny; row += 1) {
      for (let column = 0; column < grid.nx; column += 1) {
        const cell = row * stride + column;
        if (state[cell] !== 0 || isThrough(field, cell) || ![0, HANGING_PIECE].includes(field.pieceOf[cell] as number)) continue;
        found[cell] = 1;
        cells += 1;
        sumX += column + 0.5;
        sumY += row + 0.5;
      }
    }
    const mm2 = cells * grid.cellMm * grid.cellMm;
    if (mm2 < LEAST_AREA_MM2) return;
    area = { mm2, xMm: grid.x0Mm + (sumX / cells) * grid.cellMm, yMm: grid.y0Mm + (sumY / cells) * grid.cellMm };
    mask = found;
    field.setHanging(mask);
  }

  function forget(): null {
    if (mask) field.setHanging(null);
    mask = null;
    hang = null;
    return null;
  }

  function hangBy(tab: LinePoint, tabMm: number): Hang {
    const [dx, dy] = [area.xMm - tab.xMm, area.yMm - tab.yMm];
    const armMm = Math.hypot(dx, dy);
    const weightN = (area.mm2 * setup.thicknessMm * densityGPerMm3 * GRAVITY_MM_PER_S2) / 1e6;
    const tipRad = sagRad(weightN, armMm, tabMm, setup.thicknessMm);
    return {
      tabMm,
      areaMm2: area.mm2,
      centreXMm: area.xMm,
      centreYMm: area.yMm,
      tipRad,
      // About the tab: the centre goes down by so much.
      dropMm: armMm * Math.sin(tipRad),
      axisRad: Math.atan2(dy, dx) + Math.PI / 2,
    };
  }

  return {
    look(fallenPieces) {
      if (fallenPieces !== fallenBefore) forget();
      fallenBefore = fallenPieces;
      if (supports.length === 0 || points.length < 2) return null;
      const rest = restOfLine();
      if (!rest) return forget();
      // Cut all along and not fallen yet: it is held somewhere in the depth, and stays as it was.
      if (rest.count === 0) return hang;
      if (!mask) findPiece(rest.from, rest.count);
      if (!mask) return null;
      hang = hangBy(points[(rest.from + Math.floor(rest.count / 2)) % points.length] as LinePoint, rest.count * SAMPLE_MM);
      return hang;
    },
  };
}
