import { useMemo, useState } from 'react';
import type { DrillSummary, Standing } from '../../electron/contract.ts';
import { say } from '../text/say.ts';
import { useUnits } from '../ui/use-units.ts';
import { DrillFilterBar } from './DrillFilterBar.tsx';
import { DrillSheet } from './DrillSheet.tsx';
import { drillShelf, NO_FILTER } from './drill-shelf.ts';
import { techniqueName } from './technique-name.ts';

export interface DrillListProps {
  drills: readonly DrillSummary[];
  standings: readonly Standing[];
}

/** Every drill, by technique in the order in which they are learnt, with how far whoever practises has come. */
export function DrillList({ drills, standings }: DrillListProps) {
  const units = useUnits();
  const [filter, setFilter] = useState(NO_FILTER);
  const shelf = useMemo(() => drillShelf(drills, filter), [drills, filter]);
  const found = shelf.reduce((count, group) => count + group.drills.length, 0);
  return (
    <>
      <DrillFilterBar drills={drills} filter={filter} units={units} found={found} onChange={setFilter} />
      {found === 0 && <p className="soft">{say('home.filter.none')}</p>}
      <div className="drill-groups">
        {shelf.map(({ technique, drills: ofTechnique }) => (
          <section
            key={technique}
            className={`drill-group drill-group-${Math.min(3, ofTechnique.length)}`}
            aria-labelledby={`technique-${technique}`}
            data-technique={technique}
          >
            <h3 id={`technique-${technique}`}>{techniqueName(technique)}</h3>
            <ul className="drill-sheets">
              {ofTechnique.map((drill) => (
                <DrillSheet
                  key={drill.hash}
                  summary={drill}
                  standing={standings.find((standing) => standing.drillId === drill.id) ?? null}
                />
              ))}
            </ul>
          </section>
        ))}
      </div>
    </>
  );
}
