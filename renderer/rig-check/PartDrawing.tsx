import type { PartId } from '../../sim-core/index.ts';

/** Side views of our own plain parts, outward to the right: outline, and the line that tells it from the others. */
const DRAWINGS: Record<PartId, { body: string; mark: string }> = {
  electrode: { body: 'M6 15h26v-4h8l7 9-7 9h-8v-4H6z', mark: 'M41 20h6' },
  'swirl-ring': { body: 'M18 7h22v26H18z', mark: 'M23 27l4-14M29 27l4-14M35 27l4-14' },
  nozzle: { body: 'M10 6h16l20 11v6L26 34H10z', mark: 'M12 20h34' },
  cap: { body: 'M6 5h30v4h10v22H36v4H6z', mark: 'M12 5v30M18 5v30M24 5v30' },
  shield: { body: 'M12 4h20l14 9v14l-14 9H12V27h16V13H12z', mark: 'M46 16v8' },
};

/** A part of the torch's end, seen from the side. */
export function PartDrawing({ part }: { part: PartId }) {
  const { body, mark } = DRAWINGS[part];
  return (
    <svg className="part-drawing" viewBox="0 0 52 40" aria-hidden="true" focusable="false">
      <path className="part-body" d={body} />
      <path className="part-mark" d={mark} />
    </svg>
  );
}
