import { useEffect, useState } from 'react';
import type { ModerationSet, Reply } from '../../electron/contract.ts';
import { errorWords } from '../app/error-words.ts';
import { callHost } from '../app/host-client.ts';
import { goTo } from '../app/route.ts';
import { personText } from '../register/person-text.ts';
import { useMe } from '../register/signed-in.ts';
import { type TableColumn, VirtualTable } from '../register/VirtualTable.tsx';
import { keepTogether } from '../text/keep-together.ts';
import { perLanguage } from '../text/language.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Told } from '../ui/Told.tsx';
import { scoreText } from '../ui/units.ts';
import { AgreementPanel } from './AgreementPanel.tsx';
import { DecisionMark } from './DecisionMark.tsx';
import type { ModerationFigures } from './moderation-figures.ts';

/** One set: what is still to judge, and the agreement once both assessors are through. */
export function ModerationSetView({ setId }: { setId: string }) {
  const me = useMe();
  const [found, setFound] = useState<Reply<'getModerationSet'> | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    let wanted = true;
    callHost('getModerationSet', { setId }).then(
      (reply) => wanted && setFound(reply),
      (error: unknown) => wanted && setFailure(errorWords(error)),
    );
    return () => {
      wanted = false;
    };
  }, [setId]);
  if (failure !== null)
    return (
      <p role="alert">
        <Told words={failure} />
      </p>
    );
  if (found === null) return null;
  const { set, runs, comparison } = found;
  const judges = me !== null && (me.id === set.first.personId || me.id === set.second.personId);
  const nameOf = (runId: string) => {
    const index = runs.findIndex((run) => run.runId === runId);
    return `${index + 1}. ${keepTogether(runs[index]?.drillTitle ?? '')}`;
  };
  return (
    <>
      <div className="moderation-head">
        <h2>{set.title}</h2>
        {[set.first, set.second].map(({ personId, name, judged }) => (
          <p key={personId} className="soft">
            {say('moderation.progress', { person: personText(name), judged, runs: set.runs })}
          </p>
        ))}
        <Action onPress={() => goTo({ at: 'moderation', setId: null })}>{say('moderation.all')}</Action>
      </div>
      {comparison === null ? (
        <p className="soft">{say('moderation.hidden')}</p>
      ) : (
        // The host's own comparison: the contract carries its figures as they are.
        <AgreementPanel
          figures={comparison as unknown as ModerationFigures}
          first={personText(set.first.name)}
          second={personText(set.second.name)}
          nameOf={nameOf}
        />
      )}
      {(judges || comparison === null) && (
        <VirtualTable
          label={say(judges ? 'moderation.own' : 'moderation.standing')}
          rows={runs.map((run, index) => ({ ...run, number: index + 1 }))}
          columns={judges ? columnsOf(setId) : standingColumns(set)}
          keyOf={({ runId }) => runId}
          marksOf={({ runId }) => ({ 'data-run-id': runId })}
        />
      )}
    </>
  );
}

type SetRun = Reply<'getModerationSet'>['runs'][number] & { number: number };

const runColumn = perLanguage(
  (): TableColumn<SetRun> => ({
    id: 'run',
    head: say('moderation.run'),
    isRowHead: true,
    show: ({ number, drillTitle }) => `${number}. ${keepTogether(drillTitle)}`,
  }),
);

/** For who only looks on: which run waits for whom, and nothing of what was said. */
function standingColumns({ first, second }: ModerationSet): TableColumn<SetRun>[] {
  return [
    runColumn(),
    ...[first, second].map(
      ({ personId, name }): TableColumn<SetRun> => ({
        id: personId,
        head: personText(name),
        show: ({ judgedBy }) =>
          judgedBy?.includes(personId) ? say('moderation.judged') : <span className="soft">{say('moderation.to-judge')}</span>,
      }),
    ),
  ];
}

function columnsOf(setId: string): TableColumn<SetRun>[] {
  return [
    runColumn(),
    {
      id: 'own',
      head: say('moderation.own'),
      show: ({ own }) =>
        own === null ? (
          <span className="soft">{say('moderation.to-judge')}</span>
        ) : (
          <>
            <DecisionMark decision={own.decision} />{' '}
            <span className="soft">{say('moderation.own-score', { score: scoreText(own.score) })}</span>
          </>
        ),
    },
    {
      id: 'judge',
      head: say('moderation.judge'),
      headOutOfSight: true,
      toRight: true,
      show: ({ runId, drillTitle, number, own }) =>
        own === null && (
          <Action
            aria-label={say('moderation.judge-long', { drill: drillTitle, number })}
            onPress={() => goTo({ at: 'blind', setId, runId })}
          >
            {say('moderation.judge')}
          </Action>
        ),
    },
  ];
}
