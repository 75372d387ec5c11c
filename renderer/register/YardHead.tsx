import { useState } from 'react';
import { Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { hashFromRoute } from '../app/route.ts';
import { SettingsMenu } from '../app/SettingsMenu.tsx';
import { WorkAction } from '../app/WorkAction.tsx';
import { FIRST_TOPIC } from '../help/help-topics.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { FirstInstructorDialog } from './FirstInstructorDialog.tsx';
import { PassphraseDialog } from './PassphraseDialog.tsx';
import { personText } from './person-text.ts';
import { RoomLinks } from './RoomLinks.tsx';
import { signOut, useMe, useSignedIn } from './signed-in.ts';

/** Head of every room of the register: the name of the app, the rooms that are open to whoever is signed in, and the way out. */
export function YardHead() {
  const me = useMe();
  return (
    <>
      {/* No link: the address after # names the room, and a link to the content would lead out of it. */}
      <button type="button" className="skip out-of-sight" onClick={() => document.getElementById('content')?.focus()}>
        {say('app.skip')}
      </button>
      <header className="home-head">
        <p className="wordmark">
          <svg viewBox="0 0 64 64" aria-hidden="true" focusable="false">
            <path fill="var(--action)" d="M4 10h23l-9 44H4zM37 10h23v44H28z" />
            <path fill="var(--ember)" d="M29.4 10h5.2l-9 44h-5.2z" />
          </svg>
          {say('app.name')}
        </p>
        {me === null ? <p className="soft small tagline">{say('app.tagline')}</p> : <RoomLinks role={me.role} />}
        <a className="action action-quiet" href={hashFromRoute({ at: 'help', topic: FIRST_TOPIC })}>
          {say('help.open')}
        </a>
        <WhoIsHere />
        <SettingsMenu />
      </header>
    </>
  );
}

/** In an open yard: the way to its first instructor. Else who is signed in, and the way out. */
function WhoIsHere() {
  const me = useSignedIn((state) => state.me);
  const withoutNumber = useSignedIn((state) => state.withoutNumber);
  const [open, setOpen] = useState(false);
  if (me === null) return null;
  const { person } = me;
  if (!me.rolesBind) {
    return (
      <>
        <Action kind="quiet" onPress={() => setOpen(true)}>
          {say('first.open')}
        </Action>
        <FirstInstructorDialog isOpen={open} onOpenChange={setOpen} />
      </>
    );
  }
  if (person === null) {
    if (!withoutNumber) return null;
    return <Action onPress={() => useSignedIn.setState({ withoutNumber: false })}>{say('who.in')}</Action>;
  }
  return (
    <div className="who-is-here">
      {person.role === 'apprentice' ? (
        <strong>{personText(person.name)}</strong>
      ) : (
        <>
          <MenuTrigger>
            <Action kind="quiet" aria-label={say('who.signed-in', { person: personText(person.name) })}>
              {personText(person.name)}
            </Action>
            <Popover className="popover" placement="bottom end">
              <Menu className="pick-list" aria-label={personText(person.name)} onAction={() => setOpen(true)}>
                <MenuItem className="pick-option">{say('who.pass.own')}</MenuItem>
              </Menu>
            </Popover>
          </MenuTrigger>
          <PassphraseDialog person={person} own isOpen={open} onOpenChange={setOpen} />
        </>
      )}
      <WorkAction work={signOut}>{say('who.out')}</WorkAction>
    </div>
  );
}
