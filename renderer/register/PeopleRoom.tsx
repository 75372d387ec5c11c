import { useEffect, useMemo, useRef, useState } from 'react';
import { Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import type { Group, Person } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { WorkAction } from '../app/WorkAction.tsx';
import { tellTrouble, useYard } from '../app/yard-store.ts';
import { forgetWaiting, useWaiting } from '../desk/bring-file.ts';
import { offerFile } from '../review/offer-file.ts';
import { say } from '../text/say.ts';
import { useSay } from '../text/use-say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { useTitle } from '../ui/use-title.ts';
import { DeleteGroupDialog } from './DeleteGroupDialog.tsx';
import { GroupDialog } from './GroupDialog.tsx';
import { PassphraseDialog } from './PassphraseDialog.tsx';
import { personText } from './person-text.ts';
import { RosterDialog } from './RosterDialog.tsx';
import { useSignedIn } from './signed-in.ts';
import { useGroups } from './use-yard-lists.ts';
import { type TableColumn, VirtualTable } from './VirtualTable.tsx';
import { YardPage } from './YardPage.tsx';

const ROLES = ['apprentice', 'instructor', 'assessor'] as const;
const ANY = 'any';
const NO_GROUP = 'none';

const ROLES_HERE = ['instructor'] as const;
const KINDS_HERE = ['roster'] as const;

/** The shell asks where, or the browser downloads it. */
async function saveRoster(): Promise<void> {
  offerFile(await callHost('exportRoster', {}));
}

/** People of the yard, and the groups they are in. */
export function PeopleRoom() {
  return (
    <YardPage roles={ROLES_HERE}>
      <People />
    </YardPage>
  );
}

function People() {
  const people = useYard((state) => state.people);
  const groups = useGroups();
  const [said, setSaid] = useState('');
  const [taking, setTaking] = useState(false);
  const [brought, setBrought] = useState<File | null>(null);
  const waiting = useWaiting(KINDS_HERE);
  useEffect(() => {
    if (waiting === null) return;
    forgetWaiting();
    setBrought(waiting.file);
    setTaking(true);
  }, [waiting]);
  useTitle(say('people.title'));
  const add = async (role: Person['role']) => {
    const person = await callHost('createPerson', { role });
    useYard.setState((state) => ({ people: [...state.people, person] }));
    setSaid(say('people.added', { person: personText(person.name) }));
  };
  return (
    <main id="content" tabIndex={-1} className="home-main">
      <div className="home-ask">
        <div>
          <h1>{say('people.title')}</h1>
          <p className="soft">{say('people.about')}</p>
        </div>
        <div className="row-actions">
          <span role="status" className="soft">
            {said}
          </span>
          <Action onPress={() => setTaking(true)}>{say('roster.open')}</Action>
          <WorkAction work={saveRoster}>{say('roster.save')}</WorkAction>
          <MenuTrigger>
            <Action kind="main">{say('people.add')}</Action>
            <Popover className="popover pick-popover" placement="bottom end">
              <Menu
                className="pick-list"
                aria-label={say('people.add')}
                onAction={(role) => add(role as Person['role']).catch(tellTrouble)}
              >
                {ROLES.map((role) => (
                  <MenuItem key={role} id={role} className="pick-option">
                    {say(`role.${role}`)}
                  </MenuItem>
                ))}
              </Menu>
            </Popover>
          </MenuTrigger>
        </div>
      </div>
      {taking && (
        <RosterDialog
          isOpen
          brought={brought}
          onOpenChange={(open) => {
            setTaking(open);
            setBrought(null);
          }}
          onTaken={groups.again}
        />
      )}
      {groups.value !== null && (
        <div className="people-ways">
          <PeopleList people={people} groups={groups.value} />
          <GroupList groups={groups.value} onKept={groups.again} />
        </div>
      )}
    </main>
  );
}

function PeopleList({ people, groups }: { people: readonly Person[]; groups: readonly Group[] }) {
  const say = useSay();
  const holders = useSignedIn((state) => state.me?.withPassphrase ?? []);
  const [role, setRole] = useState<string>(ANY);
  const [groupId, setGroupId] = useState<string>(ANY);
  const [giving, setGiving] = useState<Person | null>(null);
  const groupsOf = useMemo(() => {
    const names = new Map<string, string[]>();
    for (const group of groups) for (const id of group.memberIds) names.set(id, [...(names.get(id) ?? []), group.name]);
    return names;
  }, [groups]);
  const shown = useMemo(() => {
    const members = new Set(groups.find((group) => group.id === groupId)?.memberIds);
    return people.filter((person) => {
      if (role !== ANY && person.role !== role) return false;
      if (groupId === ANY) return true;
      return groupId === NO_GROUP ? !groupsOf.has(person.id) : members.has(person.id);
    });
  }, [people, groups, role, groupId, groupsOf]);
  const columns = useMemo((): TableColumn<Person>[] => {
    const enters = (person: Person) => {
      if (person.role === 'apprentice') return say('people.passphrase.number');
      return say(holders.includes(person.id) ? 'people.passphrase.set' : 'people.passphrase.none');
    };
    return [
      {
        id: 'name',
        head: say('people.name'),
        isRowHead: true,
        sortBy: (person) => ROLES.indexOf(person.role) * 100_000 + person.number,
        show: (person) => <span className="figure">{personText(person.name)}</span>,
      },
      {
        id: 'groups',
        head: say('people.groups'),
        sortBy: (person) => groupsOf.get(person.id)?.join(', ') ?? null,
        show: (person) => groupsOf.get(person.id)?.join(', ') ?? <span className="soft">{say('people.no-group')}</span>,
      },
      { id: 'enters', head: say('people.passphrase'), sortBy: enters, show: enters },
      {
        id: 'change',
        head: say('people.action'),
        headOutOfSight: true,
        toRight: true,
        show: (person) =>
          person.role !== 'apprentice' && (
            <Action
              aria-label={say('people.passphrase.give-long', { person: personText(person.name) })}
              onPress={() => setGiving(person)}
            >
              {say('people.passphrase.give')}
            </Action>
          ),
      },
    ];
  }, [holders, groupsOf, say]);
  return (
    <section aria-labelledby="people-title">
      <h2 id="people-title" className="kerf-rule">
        {say('people.list')}
      </h2>
      <div className="drill-filter">
        <Pick
          label={say('people.role')}
          value={role}
          onChange={setRole}
          options={[{ value: ANY, label: say('people.any') }, ...ROLES.map((one) => ({ value: one, label: say(`role.${one}`) }))]}
        />
        <Pick
          label={say('people.group')}
          value={groupId}
          onChange={setGroupId}
          options={[
            { value: ANY, label: say('people.any') },
            { value: NO_GROUP, label: say('people.no-group') },
            ...groups.map((group) => ({ value: group.id, label: group.name })),
          ]}
        />
        <p className="soft">{say('people.shown', { shown: shown.length, all: people.length })}</p>
      </div>
      <VirtualTable label={say('people.list')} rows={shown} columns={columns} keyOf={(person) => person.id} />
      {giving && (
        <PassphraseDialog
          key={giving.id}
          person={giving}
          own={false}
          isOpen
          onOpenChange={(open) => {
            if (!open) setGiving(null);
          }}
        />
      )}
    </section>
  );
}

function GroupList({ groups, onKept }: { groups: readonly Group[]; onKept(): Promise<void> }) {
  const [open, setOpen] = useState<Group | 'new' | null>(null);
  const [deleting, setDeleting] = useState<Group | null>(null);
  const [said, setSaid] = useState('');
  // What was pressed is gone with its group: the keyboard goes on here.
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (said === '' || deleting !== null) return;
    // Behind what the dialog does when it goes.
    const frame = requestAnimationFrame(() => heading.current?.focus());
    return () => cancelAnimationFrame(frame);
  }, [said, deleting]);
  return (
    <section aria-labelledby="groups-title">
      <h2 id="groups-title" className="kerf-rule" ref={heading} tabIndex={-1}>
        {say('groups.title')}
      </h2>
      {groups.length === 0 && <p className="soft">{say('groups.none')}</p>}
      <ul className="group-list">
        {groups.map((group) => (
          <li key={group.id}>
            <strong>{group.name}</strong>
            <span className="soft">
              {group.memberIds.length === 1 ? say('groups.member') : say('groups.members', { count: group.memberIds.length })}
            </span>
            <div className="row-actions">
              <Action aria-label={say('groups.change-long', { group: group.name })} onPress={() => setOpen(group)}>
                {say('groups.change')}
              </Action>
              <Action
                aria-label={say('groups.delete-long', { group: group.name })}
                onPress={() => {
                  setSaid('');
                  setDeleting(group);
                }}
              >
                {say('groups.delete')}
              </Action>
            </div>
          </li>
        ))}
      </ul>
      <div className="row-actions">
        <Action onPress={() => setOpen('new')}>{say('groups.new')}</Action>
        <span role="status" className="soft">
          {said}
        </span>
      </div>
      {deleting !== null && (
        <DeleteGroupDialog
          key={deleting.id}
          group={deleting}
          onOpenChange={(still) => {
            if (!still) setDeleting(null);
          }}
          onDeleted={async () => {
            await onKept();
            setSaid(say('groups.deleted', { group: deleting.name }));
          }}
        />
      )}
      {open !== null && (
        <GroupDialog
          key={open === 'new' ? 'new' : open.id}
          group={open === 'new' ? null : open}
          isOpen
          onOpenChange={(still) => {
            if (!still) setOpen(null);
          }}
          onKept={onKept}
        />
      )}
    </section>
  );
}
