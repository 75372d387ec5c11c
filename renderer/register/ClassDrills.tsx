import { useMemo } from 'react';
import type { ClassView } from '../../electron/contract.ts';
import { techniqueName } from '../drills/technique-name.ts';
import { keepTogether } from '../text/keep-together.ts';
import { useSay } from '../text/use-say.ts';
import { percentText } from '../ui/number-text.ts';
import { scoreText } from '../ui/units.ts';
import { measureName } from './measure-name.ts';
import { type TableColumn, VirtualTable } from './VirtualTable.tsx';

type Line = ClassView['drills'][number];

/** How hard each drill is for this class, and which measure fails most. */
export function ClassDrills({ drills }: { drills: readonly Line[] }) {
  const say = useSay();
  const columns = useMemo((): TableColumn<Line>[] => {
    const figure = (text: string) => <span className="figure">{text}</span>;
    return [
      {
        id: 'title',
        head: say('class.drill'),
        isRowHead: true,
        sortBy: ({ title }) => title,
        show: ({ title }) => keepTogether(title),
      },
      {
        id: 'technique',
        head: say('class.technique'),
        sortBy: ({ technique }) => techniqueName(technique),
        show: ({ technique }) => figure(techniqueName(technique)),
      },
      {
        id: 'people',
        head: say('class.drill.people'),
        toRight: true,
        sortBy: ({ people }) => people,
        show: ({ people }) => figure(String(people)),
      },
      {
        id: 'runs',
        head: say('class.finished'),
        toRight: true,
        sortBy: ({ finished }) => finished,
        show: ({ finished }) => figure(String(finished)),
      },
      {
        id: 'share',
        head: say('class.share'),
        toRight: true,
        sortBy: ({ passShare }) => passShare,
        show: ({ passShare }) => (
          <span className="share">
            <span className="mark-rule" aria-hidden="true">
              <span style={{ width: `${passShare * 100}%` }} />
            </span>
            <span className="figure">{percentText(passShare * 100)}</span>
          </span>
        ),
      },
      {
        id: 'mean',
        head: say('class.mean'),
        toRight: true,
        sortBy: ({ meanScore }) => meanScore,
        show: ({ meanScore }) => figure(scoreText(meanScore)),
      },
      {
        id: 'worst',
        head: say('class.worst'),
        sortBy: ({ worstMeasure }) => worstMeasure?.mark ?? null,
        show: ({ worstMeasure: worst }) =>
          worst && figure(say('class.measure', { measure: measureName(worst.measureId), mark: scoreText(worst.mark) })),
      },
    ];
  }, [say]);
  return (
    <section aria-labelledby="class-drills">
      <h2 id="class-drills" className="kerf-rule">
        {say('class.drills')}
      </h2>
      {drills.length === 0 ? (
        <p className="soft">{say('class.drills.none')}</p>
      ) : (
        <VirtualTable label={say('class.drills')} rows={drills} columns={columns} keyOf={({ drillId }) => drillId} />
      )}
    </section>
  );
}
