import { useCallback, useEffect, useState } from 'react';
import type { ModerationSet } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { goTo } from '../app/route.ts';
import { tellTrouble } from '../app/yard-store.ts';
import { momentText } from '../register/dates.ts';
import { personText } from '../register/person-text.ts';
import { useMe, useSignedIn } from '../register/signed-in.ts';
import { type TableColumn, VirtualTable } from '../register/VirtualTable.tsx';
import { YardHead } from '../register/YardHead.tsx';
import { perLanguage } from '../text/language.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { useTitle } from '../ui/use-title.ts';
import { MakeSetDialog } from './MakeSetDialog.tsx';
import { ModerationSetView } from './ModerationSetView.tsx';

/** Sets of runs that two assessors judge blind, and how far they agree. */
export function ModerationRoom({ setId }: { setId: string | null }) {
  const known = useSignedIn((state) => state.me !== null);
  const me = useMe();
  useTitle(say('moderation.title'));
  const staff = me !== null && me.role !== 'apprentice';
  return (
    <div className="queue">
      <YardHead />
      <main id="content" tabIndex={-1} className="queue-main">
        <h1>{say('moderation.title')}</h1>
        {known && !staff && <p className="notice">{say('moderation.forbidden')}</p>}
        {staff && (setId === null ? <SetList /> : <ModerationSetView setId={setId} />)}
      </main>
    </div>
  );
}

function SetList() {
  const [sets, setSets] = useState<readonly ModerationSet[] | null>(null);
  const [making, setMaking] = useState(false);
  const load = useCallback(() => callHost('listModerationSets', {}).then((reply) => setSets(reply.sets)), []);
  useEffect(() => {
    load().catch(tellTrouble);
  }, [load]);
  if (sets === null) return null;
  return (
    <>
      <p className="soft">{say('moderation.lead')}</p>
      <Action kind="main" onPress={() => setMaking(true)}>
        {say('moderation.make')}
      </Action>
      {making && <MakeSetDialog isOpen onOpenChange={setMaking} onMade={load} />}
      {sets.length === 0 ? (
        <p className="soft">{say('moderation.none')}</p>
      ) : (
        <VirtualTable label={say('moderation.sets')} rows={sets} columns={columns()} keyOf={({ id }) => id} />
      )}
    </>
  );
}

const judgedOf = ({ runs }: ModerationSet, { name, judged }: ModerationSet['first']) =>
  say('moderation.progress', { person: personText(name), judged, runs });

const columns = perLanguage((): readonly TableColumn<ModerationSet>[] => [
  {
    id: 'title',
    head: say('moderation.column.title'),
    isRowHead: true,
    sortBy: ({ title }) => title,
    show: ({ title }) => title,
  },
  {
    id: 'made',
    head: say('moderation.column.made'),
    sortBy: ({ createdAt }) => createdAt,
    show: ({ createdAt }) => <span className="figure">{momentText(createdAt)}</span>,
  },
  { id: 'first', head: say('moderation.column.first'), show: (set) => judgedOf(set, set.first) },
  { id: 'second', head: say('moderation.column.second'), show: (set) => judgedOf(set, set.second) },
  {
    id: 'open',
    head: say('moderation.column.open'),
    headOutOfSight: true,
    toRight: true,
    show: (set) => (
      <Action
        aria-label={say('moderation.open-long', { title: set.title })}
        onPress={() => goTo({ at: 'moderation', setId: set.id })}
      >
        {say('moderation.open')}
      </Action>
    ),
  },
]);
