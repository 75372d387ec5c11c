import { useEffect, useRef, useState } from 'react';
import { say } from '../text/say.ts';
import { BindingTable } from './BindingTable.tsx';
import type { HandChoicesProps } from './ControlsDialog.tsx';
import { keyName, keyNames } from './control-names.ts';
import { KEY_ACTIONS, type KeyAction, keyTakenBy, mayBeBound } from './hand-actions.ts';

/** What each key of the bench does; a key that is taken already is told, and not taken away. */
export function KeyTable({ hand, onChange }: HandChoicesProps) {
  const [asking, setAsking] = useState<KeyAction | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const now = useRef({ hand, onChange });
  now.current = { hand, onChange };

  useEffect(() => {
    if (asking === null) return;
    const onKey = (event: KeyboardEvent) => {
      // The dialog would take Esc for closing, and a button Space for a press.
      event.preventDefault();
      event.stopImmediatePropagation();
      if (event.repeat) return;
      setAsking(null);
      if (event.code === 'Escape') return;
      if (!mayBeBound(event.code)) {
        setSaid(say('controls.not-usable'));
        return;
      }
      const holder = keyTakenBy(event.code, asking, now.current.hand);
      if (holder !== null) {
        setSaid(say('controls.taken', { name: keyName(event.code), action: say(`action.${holder}`) }));
        return;
      }
      setSaid(null);
      now.current.onChange({ keys: { ...now.current.hand.keys, [asking]: [event.code] } });
    };
    const swallow = (event: KeyboardEvent) => {
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    window.addEventListener('keydown', onKey, { capture: true });
    window.addEventListener('keyup', swallow, { capture: true });
    return () => {
      window.removeEventListener('keydown', onKey, { capture: true });
      window.removeEventListener('keyup', swallow, { capture: true });
    };
  }, [asking]);

  return (
    <BindingTable<KeyAction>
      label={say('controls.keys')}
      actions={KEY_ACTIONS}
      asking={asking}
      asked={say('controls.press-key')}
      nameOf={(action) => keyNames(action, hand)}
      onAsk={(action) => {
        setSaid(null);
        setAsking(action);
      }}
      said={said}
      onReset={() => {
        onChange({ keys: {} });
        setSaid(say('controls.was-reset'));
      }}
    />
  );
}
