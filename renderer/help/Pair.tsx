import type { ReactNode } from 'react';

/** Parts that the drawings of the help are put together from; each half of a drawing is 150 by 130. */
export const PLATE = { top: 66, bottom: 92 } as const;

/** How it should be, beside how it should not; told apart by tick and cross. */
export function Pair({ good, bad }: { good: ReactNode; bad: ReactNode }) {
  return (
    <svg className="help-picture" viewBox="0 0 320 150" aria-hidden="true" focusable="false">
      <g transform="translate(4 4)">
        {good}
        <path className="pic-good" d="M6 132l6 7 12 -14" />
      </g>
      <path className="pic-thin" d="M160 6v138" />
      <g transform="translate(166 4)">
        {bad}
        <path className="pic-bad" d="M8 126l12 12M20 126l-12 12" />
      </g>
    </svg>
  );
}

/** A plate in section, between two places, or with a part of it gone. */
export function Plate({ from = 0, to = 150 }: { from?: number; to?: number }) {
  return <rect className="pic-metal" x={from} y={PLATE.top} width={to - from} height={PLATE.bottom - PLATE.top} />;
}

/** The torch above a place, its tip so far above the plate, leaning so (degrees, to the right). */
export function Torch({ x, up = 6, lean = 0 }: { x: number; up?: number; lean?: number }) {
  return (
    <g transform={`translate(${x} ${PLATE.top - up}) rotate(${lean})`}>
      <path className="pic-torch" d="M-4 0h8l4 -12v-34h-16v34z" />
    </g>
  );
}

/** The arc from the tip into the metal. */
export function Arc({ x, up = 6, to = PLATE.bottom }: { x: number; up?: number; to?: number }) {
  return <path className="pic-arc" d={`M${x - 2} ${PLATE.top - up}h4L${x + 1} ${to}h-2z`} />;
}

/** Sparks from a place, so many degrees to the left of straight down. */
export function Sparks({ x, y = PLATE.bottom, deg, length = 34 }: { x: number; y?: number; deg: number; length?: number }) {
  return (
    <g className="pic-sparks" transform={`translate(${x} ${y}) rotate(${deg})`}>
      <path d={`M0 0V${length}M-2 2L-6 ${length - 6}M2 2L6 ${length - 8}`} />
    </g>
  );
}

/** An arrow along the plate: which way, and how fast by its length. */
export function Way({ x, y = 12, length = 40 }: { x: number; y?: number; length?: number }) {
  return <path className="pic-way" d={`M${x} ${y}h${length}m-7 -5l7 5l-7 5`} />;
}
