import { SURFACES } from '../../sim-core/index.ts';

/** Marks by which each surface is told from the others without its colour; bare metal has none. */
const MARKS = {
  bare: '',
  'mill-scale': 'M0 3h5M4 9h5',
  rust: 'M2 2h2v2H2zM7 7h2v2H7z',
  paint: 'M0 10L10 0M-2 2L2 -2M8 12l4-4',
  zinc: 'M0 5l5-5 5 5-5 5z',
} as const;

/** SVG patterns for surfaces; refer to them as `url(#surface-rust)`. */
export function SurfacePatterns() {
  return (
    <defs>
      {SURFACES.map((surface) => (
        <pattern key={surface} id={`surface-${surface}`} width={10} height={10} patternUnits="userSpaceOnUse">
          <rect className={`surface-ground surface-${surface}`} width={10} height={10} />
          <path className="surface-mark" d={MARKS[surface]} />
        </pattern>
      ))}
    </defs>
  );
}
