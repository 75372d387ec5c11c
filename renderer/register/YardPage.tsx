import type { ReactNode } from 'react';
import type { PersonRole } from '../../electron/contract.ts';
import { hashFromRoute } from '../app/route.ts';
import { say } from '../text/say.ts';
import { useMe, useSignedIn } from './signed-in.ts';
import { YardHead } from './YardHead.tsx';

export interface YardPageProps {
  /** Roles that may enter; left out where everybody may. The host holds it as well. */
  roles?: readonly PersonRole[];
  children: ReactNode;
}

/** Every room of the register between its head and the caution at its foot. */
export function YardPage({ roles, children }: YardPageProps) {
  const known = useSignedIn((state) => state.me !== null);
  const me = useMe();
  return (
    <div className="home">
      <YardHead />
      {!roles || (me && roles.includes(me.role)) ? children : known && <ClosedRoom roles={roles} />}
      <footer className="home-foot">
        <p>
          <strong>{say('app.caution')}</strong> {say('caution.always')}
        </p>
      </footer>
    </div>
  );
}

/** Somebody came by an address that is not for them. */
function ClosedRoom({ roles }: { roles: readonly PersonRole[] }) {
  const names = roles.map((role) => say(`roles.${role}`));
  const words = names.length === 2 ? say('rooms.or', { one: names[0] ?? '', other: names[1] ?? '' }) : names.join(', ');
  return (
    <main id="content" tabIndex={-1} className="home-main">
      <h1>{say('rooms.closed', { roles: words })}</h1>
      <a className="action" href={hashFromRoute({ at: 'home' })}>
        {say('rooms.to-home')}
      </a>
    </main>
  );
}
