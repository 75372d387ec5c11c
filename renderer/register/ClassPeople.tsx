import { useMemo } from 'react';
import type { ClassView } from '../../electron/contract.ts';
import { goTo } from '../app/route.ts';
import { useYard } from '../app/yard-store.ts';
import { keepTogether } from '../text/keep-together.ts';
import { say } from '../text/say.ts';
import { useSay } from '../text/use-say.ts';
import { Action } from '../ui/Action.tsx';
import { money } from '../ui/money.ts';
import { scoreText } from '../ui/units.ts';
import { momentText } from './dates.ts';
import { measureName } from './measure-name.ts';
import { personText } from './person-text.ts';
import { useSignedIn } from './signed-in.ts';
import { type TableColumn, VirtualTable } from './VirtualTable.tsx';

type Line = ClassView['people'][number];

/** Who has practised, how it goes of late, who is stuck and on which measure, and what it would have cost. */
export function ClassPeople({ people }: { people: readonly Line[] }) {
  const say = useSay();
  const currency = useYard((state) => state.settings.prices.currency);
  const addsPeople = useSignedIn((state) => state.me?.person?.role === 'instructor');
  const columns = useMemo((): TableColumn<Line>[] => {
    const figure = (text: string) => <span className="figure">{text}</span>;
    return [
      {
        id: 'name',
        head: say('class.name'),
        isRowHead: true,
        sortBy: ({ name }) => name,
        show: ({ name }) => figure(personText(name)),
      },
      {
        id: 'last',
        head: say('class.last'),
        sortBy: ({ lastAt }) => lastAt,
        show: ({ lastAt }) => (lastAt === null ? <span className="soft">{say('class.never')}</span> : figure(momentText(lastAt))),
      },
      {
        id: 'runs',
        head: say('class.finished'),
        toRight: true,
        sortBy: ({ finished }) => finished,
        show: ({ finished }) => figure(String(finished)),
      },
      {
        id: 'passed',
        head: say('class.passed'),
        toRight: true,
        sortBy: ({ drillsPassed }) => drillsPassed,
        show: ({ drillsPassed, drillsTried }) => figure(say('class.passed.of', { passed: drillsPassed, tried: drillsTried })),
      },
      {
        id: 'recent',
        head: say('class.recent'),
        toRight: true,
        sortBy: ({ recentScore }) => recentScore,
        show: ({ recentScore }) => figure(recentScore === null ? '–' : scoreText(recentScore)),
      },
      { id: 'stuck', head: say('class.stuck'), sortBy: ({ stuck }) => stuck?.recentScore ?? null, show: stuckWords },
      {
        id: 'spent',
        head: say('class.spent'),
        toRight: true,
        sortBy: ({ spent }) => spent,
        show: ({ spent }) => figure(money(spent, currency)),
      },
    ];
  }, [currency, say]);
  // Whoever is stuck needs the instructor first.
  const rows = useMemo(() => [...people].sort((a, b) => Number(b.stuck !== null) - Number(a.stuck !== null)), [people]);
  return (
    <section aria-labelledby="class-people">
      <h2 id="class-people" className="kerf-rule">
        {say('class.people')}
      </h2>
      {people.length === 0 ? (
        <>
          <p className="soft">{say('class.people.none')}</p>
          {addsPeople && (
            <Action kind="main" onPress={() => goTo({ at: 'people' })}>
              {say('class.people.add')}
            </Action>
          )}
        </>
      ) : (
        <VirtualTable
          label={say('class.people')}
          rows={rows}
          columns={columns}
          keyOf={({ personId }) => personId}
          marksOf={({ personId, stuck }) => ({ 'data-person': personId, 'data-stuck': String(stuck !== null) })}
        />
      )}
    </section>
  );
}

function stuckWords({ stuck }: Line) {
  if (stuck === null) return null;
  const { drillTitle, finished: count, measureId, measureMark } = stuck;
  const score = scoreText(stuck.recentScore);
  const where =
    measureId === null || measureMark === null
      ? say('class.stuck.runs', { count, score })
      : say('class.stuck.at', { measure: measureName(measureId), mark: scoreText(measureMark), count, score });
  return (
    <>
      {keepTogether(drillTitle)}
      <span className="soft small stuck-runs">{where}</span>
    </>
  );
}
