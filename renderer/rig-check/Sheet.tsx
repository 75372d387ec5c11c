import type { ReactNode } from 'react';
import { say } from '../text/say.ts';

/** What stands on the bench of the rig check, in the order of the checklist. */
export const SHEETS = ['parts', 'gas', 'clamp', 'source', 'person', 'place'] as const;
export type SheetName = (typeof SHEETS)[number];

/** One sheet of the checklist. Its heading can take the focus, so that a finding leads to it. */
export function Sheet({ name, children }: { name: SheetName; children: ReactNode }) {
  return (
    <section className="rig-sheet" aria-labelledby={`rig-${name}`} data-sheet={name}>
      <h2 id={`rig-${name}`} tabIndex={-1}>
        <span className="rig-number" aria-hidden="true">
          {SHEETS.indexOf(name) + 1}
        </span>
        {say(`rig.sheet.${name}`)}
      </h2>
      {children}
    </section>
  );
}
