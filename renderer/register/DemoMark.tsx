import { useState } from 'react';
import { tellTrouble } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { switchYard, useDemoYard } from './demo-yard.ts';

/** Above every room while the demo yard is open: what it is, and the way out. */
export function DemoMark() {
  const isOpen = useDemoYard(({ demo }) => demo?.state === 'open');
  const [busy, setBusy] = useState(false);
  if (!isOpen) return null;
  const leave = () => {
    setBusy(true);
    switchYard('leaveDemoYard')
      .catch(tellTrouble)
      .finally(() => setBusy(false));
  };
  return (
    <aside className="demo-mark" aria-label={say('demo.mark')}>
      <p>
        <strong>{say('demo.mark')}</strong> {say('demo.mark.about')}
      </p>
      <Action isWaiting={busy} onPress={leave}>
        {say('demo.leave')}
      </Action>
    </aside>
  );
}
