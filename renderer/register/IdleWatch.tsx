import { useEffect, useState } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import type { Person } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { useAttempt } from '../app/use-attempt.ts';
import { WorkAction } from '../app/WorkAction.tsx';
import { useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Problem } from '../ui/Problem.tsx';
import { personText } from './person-text.ts';
import { SecretField } from './SecretField.tsx';
import { signOut, useSignedIn } from './signed-in.ts';

/** How often the page looks whether its person is still signed in. */
const LOOK_MS = 20_000;
/** The host hears of somebody at the page no oftener than this. */
const TELL_MS = 60_000;

/** A look that was not answered says nothing: the next one will be. */
const unheard = () => undefined;

async function ask(verb: 'whoAmI' | 'stillHere'): Promise<void> {
  const me = await callHost(verb, {});
  const before = useSignedIn.getState().me?.person;
  // Only a sign-out for idleness is taken up here; whatever else changed was done on this page, which knows of it.
  if (me.signedOutIdle !== null && me.signedOutIdle.id === before?.id) useSignedIn.setState({ idle: me.signedOutIdle });
}

/** Tells the host while somebody is at the page, and covers it once its instructor or assessor was signed out for want of that. */
export function IdleWatch() {
  const person = useSignedIn((state) => state.me?.person ?? null);
  const idle = useSignedIn((state) => state.idle);
  const watched = person !== null && person.role !== 'apprentice' && idle === null;
  useEffect(() => {
    if (!watched) return;
    let toldMs = Date.now();
    const tell = () => {
      if (Date.now() - toldMs < TELL_MS) return;
      toldMs = Date.now();
      ask('stillHere').catch(unheard);
    };
    const timer = setInterval(() => ask('whoAmI').catch(unheard), LOOK_MS);
    const signs = ['pointerdown', 'pointermove', 'keydown', 'wheel'] as const;
    for (const sign of signs) window.addEventListener(sign, tell, { capture: true, passive: true });
    return () => {
      clearInterval(timer);
      for (const sign of signs) window.removeEventListener(sign, tell, { capture: true });
    };
  }, [watched]);
  return idle === null ? null : <Cover person={idle} />;
}

/** The page behind it is out of sight and as it was left. */
function Cover({ person }: { person: Person }) {
  const minutes = useYard((state) => state.settings.idleSignOutMinutes);
  const [passphrase, setPassphrase] = useState('');
  const { busy, problem, begin } = useAttempt();
  const enter = async () => {
    const went = await begin(async () => {
      const me = await callHost('signIn', { personId: person.id, passphrase });
      useSignedIn.setState({ me, idle: null });
    });
    if (!went) setPassphrase('');
  };
  return (
    <ModalOverlay className="veil idle-cover" isOpen isDismissable={false} isKeyboardDismissDisabled>
      <Modal className="form-modal">
        <Dialog className="dialog form-dialog">
          <form
            onSubmit={(event) => {
              event.preventDefault();
              if (passphrase !== '' && !busy) void enter();
            }}
          >
            <Heading slot="title">{say('idle.title')}</Heading>
            <p>{say('idle.about', { person: personText(person.name), minutes })}</p>
            <SecretField label={say('sign.passphrase')} value={passphrase} known autoFocus onChange={setPassphrase} />
            <Problem words={problem} />
            <div className="dialog-actions">
              <WorkAction work={signOut}>{say('idle.leave')}</WorkAction>
              <Action kind="main" type="submit" isDisabled={passphrase === ''} isWaiting={busy}>
                {busy ? say('app.wait') : say('idle.enter')}
              </Action>
            </div>
          </form>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
