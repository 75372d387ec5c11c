import { useState } from 'react';
import { GridLayout, ListBox, ListBoxItem, Size, Virtualizer } from 'react-aria-components';
import type { Person } from '../../electron/contract.ts';
import { useAttempt } from '../app/use-attempt.ts';
import { tellTrouble, useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { Problem } from '../ui/Problem.tsx';
import { DemoEntries } from './DemoEntries.tsx';
import { personText } from './person-text.ts';
import { remPx } from './rem-px.ts';
import { SecretField } from './SecretField.tsx';
import { signIn, useSignedIn } from './signed-in.ts';

/** An apprentice picks a number; instructor and assessor give their passphrase. */
export function SignInPanel() {
  const people = useYard((state) => state.people);
  const holders = useSignedIn((state) => state.me?.withPassphrase);
  // Instructors come in most often, so theirs is the number that stands there.
  const staff = people
    .filter((person) => holders?.includes(person.id))
    .toSorted((a, b) => Number(b.role === 'instructor') - Number(a.role === 'instructor'));
  return (
    <main id="content" tabIndex={-1} className="home-main sign-in">
      <h1>{say('sign.title')}</h1>
      <DemoEntries />
      <div className="sign-ways">
        <ApprenticeNumbers apprentices={people.filter((person) => person.role === 'apprentice')} />
        {staff.length > 0 && <StaffEntry staff={staff} />}
      </div>
      <p className="sign-without">
        <Action kind="quiet" onPress={() => useSignedIn.setState({ withoutNumber: true })}>
          {say('sign.without')}
        </Action>
        <span className="soft">{say('sign.without.hint')}</span>
      </p>
    </main>
  );
}

function ApprenticeNumbers({ apprentices }: { apprentices: readonly Person[] }) {
  return (
    <section className="sign-numbers" aria-labelledby="sign-apprentice">
      <h2 id="sign-apprentice" className="kerf-rule">
        {say('sign.apprentice')}
      </h2>
      {apprentices.length === 0 ? (
        <p className="soft">{say('sign.apprentice.none')}</p>
      ) : (
        <>
          <p className="soft small">{say('sign.apprentice.hint')}</p>
          <Virtualizer
            layout={GridLayout}
            layoutOptions={{ minItemSize: new Size(remPx(4.5), remPx(2.75)), minSpace: new Size(10, 10) }}
          >
            <ListBox
              className="number-board"
              layout="grid"
              aria-labelledby="sign-apprentice"
              items={apprentices}
              selectionMode="none"
              onAction={(key) => signIn(String(key), null).catch(tellTrouble)}
            >
              {(person) => (
                <ListBoxItem className="number-tag" textValue={String(person.number)} aria-label={personText(person.name)}>
                  {String(person.number).padStart(2, '0')}
                </ListBoxItem>
              )}
            </ListBox>
          </Virtualizer>
        </>
      )}
    </section>
  );
}

function StaffEntry({ staff }: { staff: readonly Person[] }) {
  const [personId, setPersonId] = useState(staff[0]?.id ?? '');
  const [passphrase, setPassphrase] = useState('');
  const { busy, problem, begin } = useAttempt();
  const enter = async () => {
    if (!(await begin(() => signIn(personId, passphrase)))) setPassphrase('');
  };
  return (
    <section aria-labelledby="sign-staff">
      <h2 id="sign-staff" className="kerf-rule">
        {say('sign.staff')}
      </h2>
      <form
        className="sign-form"
        onSubmit={(event) => {
          event.preventDefault();
          if (passphrase !== '' && !busy) void enter();
        }}
      >
        <Pick
          label={say('sign.staff.who')}
          value={personId}
          onChange={setPersonId}
          options={staff.map((person) => ({ value: person.id, label: personText(person.name) }))}
        />
        <SecretField label={say('sign.passphrase')} value={passphrase} known onChange={setPassphrase} />
        <Problem words={problem} />
        <Action kind="main" type="submit" isDisabled={passphrase === ''} isWaiting={busy}>
          {busy ? say('app.wait') : say('sign.enter')}
        </Action>
      </form>
    </section>
  );
}
