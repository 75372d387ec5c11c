import { useMemo, useState } from 'react';
import type { Group } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { goTo } from '../app/route.ts';
import { useAttempt } from '../app/use-attempt.ts';
import { useYard } from '../app/yard-store.ts';
import { drillShelf, NO_FILTER } from '../drills/drill-shelf.ts';
import { techniqueName } from '../drills/technique-name.ts';
import { say } from '../text/say.ts';
import { useSay } from '../text/use-say.ts';
import { Action } from '../ui/Action.tsx';
import { Problem } from '../ui/Problem.tsx';
import { useTitle } from '../ui/use-title.ts';
import { AssignTerms, FIRST_TERMS, type Terms } from './AssignTerms.tsx';
import { peopleMeant, sumWords } from './assignment-words.ts';
import { DrillSequence } from './DrillSequence.tsx';
import { endOfDayIso } from './dates.ts';
import { ManyPick } from './ManyPick.tsx';
import { personText } from './person-text.ts';
import { useGroups } from './use-yard-lists.ts';
import { YardPage } from './YardPage.tsx';

type Ids = ReadonlySet<string>;
const NOTHING: Ids = new Set();

const ROLES_HERE = ['instructor'] as const;

/** A new assignment: which drills, for whom, on what terms. Nothing is assigned before it is said so at the end. */
export function AssignRoom() {
  return (
    <YardPage roles={ROLES_HERE}>
      <NewAssignment />
    </YardPage>
  );
}

function NewAssignment() {
  const groups = useGroups();
  useTitle(say('assign.form.title'));
  return (
    <main id="content" tabIndex={-1} className="home-main assign-room">
      <h1>{say('assign.form.title')}</h1>
      {groups.value !== null && <AssignForm groups={groups.value} />}
    </main>
  );
}

function AssignForm({ groups }: { groups: readonly Group[] }) {
  const say = useSay();
  const { drills, people } = useYard();
  const [drillIds, setDrillIds] = useState(NOTHING);
  const [groupIds, setGroupIds] = useState(NOTHING);
  const [personIds, setPersonIds] = useState(NOTHING);
  const [terms, setTerms] = useState<Terms>(FIRST_TERMS);
  const { busy, problem, begin } = useAttempt();
  // biome-ignore lint/correctness/useExhaustiveDependencies: techniques are named in the language
  const drillItems = useMemo(
    () =>
      drillShelf(drills, NO_FILTER)
        .flatMap((group) => group.drills)
        .map(({ id, title, technique }) => ({ id, name: title, note: techniqueName(technique) })),
    [drills, say],
  );
  const groupItems = useMemo(
    () =>
      groups.map(({ id, name, memberIds }) => ({
        id,
        name,
        note: memberIds.length === 1 ? say('groups.member') : say('groups.members', { count: memberIds.length }),
      })),
    [groups, say],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: people are named in the language
  const apprentices = useMemo(
    () => people.filter((person) => person.role === 'apprentice').map(({ id, name }) => ({ id, name: personText(name) })),
    [people, say],
  );
  const meant = peopleMeant(personIds, groupIds, groups);
  const dueAt = terms.due === '' ? null : endOfDayIso(terms.due);
  const lack = lackWords(drillIds.size, meant, terms.title, dueAt);

  const assign = async () => {
    await callHost('assign', {
      title: terms.title.trim(),
      drillIds: [...drillIds],
      personIds: [...personIds],
      groupIds: [...groupIds],
      dueAt,
      attempts: terms.attempts,
      cueLevel: terms.cueLevel,
      order: terms.order,
    });
    goTo({ at: 'assignments' });
  };

  return (
    <form
      className="assign-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (lack === null) void begin(assign);
      }}
    >
      <section aria-labelledby="assign-what">
        <h2 id="assign-what" className="kerf-rule">
          {say('assign.form.what')}
        </h2>
        <ManyPick label={say('assign.drills')} items={drillItems} chosen={drillIds} onChange={setDrillIds} />
      </section>
      <section aria-labelledby="assign-who">
        <h2 id="assign-who" className="kerf-rule">
          {say('assign.form.who')}
        </h2>
        {groups.length > 0 && (
          <div className="many-short">
            <ManyPick label={say('assign.form.groups')} items={groupItems} chosen={groupIds} onChange={setGroupIds} />
          </div>
        )}
        <ManyPick label={say('assign.form.people')} items={apprentices} chosen={personIds} onChange={setPersonIds} />
      </section>
      <section aria-labelledby="assign-how">
        <h2 id="assign-how" className="kerf-rule">
          {say('assign.form.how')}
        </h2>
        <AssignTerms terms={terms} onChange={setTerms} />
        {terms.order === 'as-listed' && drillIds.size > 1 && (
          <DrillSequence drillIds={[...drillIds]} drills={drills} onChange={(ids) => setDrillIds(new Set(ids))} />
        )}
        <p className="assign-sum" role="status">
          {busy ? say('app.busy') : (lack ?? sumWords(drillIds.size, meant))}
        </p>
        <Problem words={problem} />
        <div className="row-actions">
          <Action onPress={() => goTo({ at: 'assignments' })}>{say('assign.form.leave')}</Action>
          <Action kind="main" type="submit" isDisabled={lack !== null} isWaiting={busy}>
            {busy ? say('app.wait') : say('assign.form.keep')}
          </Action>
        </div>
      </section>
    </form>
  );
}

/** What is still missing, one thing at a time; null when nothing is. */
function lackWords(drills: number, people: number, title: string, dueAt: string | null): string | null {
  if (drills === 0) return say('assign.form.lack.drills');
  if (people === 0) return say('assign.form.lack.people');
  if (title.trim() === '') return say('assign.form.lack.title');
  if (dueAt !== null && Date.parse(dueAt) < Date.now()) return say('assign.form.lack.due');
  return null;
}
