import { useEffect, useState } from 'react';
import type { ClassView } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { tellTrouble, useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { money } from '../ui/money.ts';
import { Pick } from '../ui/Pick.tsx';
import { useTitle } from '../ui/use-title.ts';
import { ClassCurves } from './ClassCurves.tsx';
import { ClassDrills } from './ClassDrills.tsx';
import { ClassPeople } from './ClassPeople.tsx';
import { dayText } from './dates.ts';
import { useGroups } from './use-yard-lists.ts';
import { YardNotices } from './YardNotices.tsx';
import { YardPage } from './YardPage.tsx';

const EVERYBODY = 'everybody';

const ROLES_HERE = ['instructor', 'assessor'] as const;

/** A class at a glance: people, drills, curves, cost. Made to be printed as well. */
export function ClassRoom() {
  return (
    <YardPage roles={ROLES_HERE}>
      <ClassAtAGlance />
    </YardPage>
  );
}

function ClassAtAGlance() {
  const groups = useGroups();
  const [groupId, setGroupId] = useState<string>(EVERYBODY);
  const [view, setView] = useState<ClassView | null>(null);
  useTitle(say('class.title'));
  useEffect(() => {
    let wanted = true;
    callHost('getClassView', { groupId: groupId === EVERYBODY ? null : groupId })
      .then((seen) => wanted && setView(seen))
      .catch(tellTrouble);
    return () => {
      wanted = false;
    };
  }, [groupId]);
  const who = groups.value?.find((group) => group.id === groupId)?.name ?? say('class.everybody');
  return (
    <main id="content" tabIndex={-1} className="home-main class-room">
      <div className="home-ask">
        <div>
          <h1>{say('class.title')}</h1>
          <p className="printed-only">{say('class.printed', { who, date: dayText(new Date().toISOString()) })}</p>
          {view && <ClassSum view={view} />}
        </div>
        <div className="person-picker not-printed">
          <Pick
            label={say('class.group')}
            value={groupId}
            onChange={setGroupId}
            options={[
              { value: EVERYBODY, label: say('class.everybody') },
              ...(groups.value ?? []).map((group) => ({ value: group.id, label: group.name })),
            ]}
          />
          <Action onPress={() => window.print()}>{say('class.print')}</Action>
        </div>
      </div>
      <YardNotices />
      {view === null ? (
        <p className="soft" role="status">
          {say('class.reading')}
        </p>
      ) : (
        <>
          <ClassPeople people={view.people} />
          <ClassDrills drills={view.drills} />
          {view.curves.length > 0 && <ClassCurves curves={view.curves} />}
        </>
      )}
    </main>
  );
}

function ClassSum({ view: { people } }: { view: ClassView }) {
  const currency = useYard((state) => state.settings.prices.currency);
  const spent = people.reduce((sum, person) => sum + person.spent, 0);
  return (
    <p>
      {say('class.sum', {
        practised: people.filter((person) => person.finished > 0).length,
        all: people.length,
        stuck: people.filter((person) => person.stuck !== null).length,
        spent: money(spent, currency),
      })}
    </p>
  );
}
