import { useEffect, useRef, useState } from 'react';
import type { HandSettings } from '../../electron/contract.ts';
import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { Gauge } from '../ui/Gauge.tsx';
import { percentText } from '../ui/number-text.ts';
import { Tick } from '../ui/Tick.tsx';
import { BindingTable } from './BindingTable.tsx';
import type { HandChoicesProps } from './ControlsDialog.tsx';
import { buttonName } from './control-names.ts';
import { connectedPad } from './gamepad-hand.ts';
import { buttonOf, buttonTakenBy, PAD_ACTIONS, type PadAction } from './hand-actions.ts';

const LOOK_MS = 30;
/** A trigger that is pulled this far is meant. */
const MEANT = 0.6;
const share = (value: number) => percentText(value * 100);

/** What each button of the pad does, its dead zone, its sticks, and whether it is felt. */
export function PadTable({ hand, onChange }: HandChoicesProps) {
  const [asking, setAsking] = useState<PadAction | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const now = useRef({ hand, onChange });
  now.current = { hand, onChange };

  useEffect(() => {
    if (asking === null) return;
    // Whatever is held already when it is asked for is no answer.
    let free = !(connectedPad(navigator.getGamepads())?.buttons ?? []).some(({ value }) => value > MEANT);
    const looking = setInterval(() => {
      const buttons = connectedPad(navigator.getGamepads())?.buttons ?? [];
      const button = buttons.findIndex(({ value }) => value > MEANT);
      if (button === -1) free = true;
      if (button === -1 || !free) return;
      setAsking(null);
      const holder = buttonTakenBy(button, asking, now.current.hand);
      if (holder !== null) {
        setSaid(say('controls.taken', { name: buttonName(button), action: say(`action.${holder}`) }));
        return;
      }
      now.current.onChange({ padButtons: { ...now.current.hand.padButtons, [asking]: button } });
    }, LOOK_MS);
    const onKey = (event: KeyboardEvent) => {
      if (event.code !== 'Escape') return;
      event.preventDefault();
      event.stopImmediatePropagation();
      setAsking(null);
    };
    window.addEventListener('keydown', onKey, { capture: true });
    return () => {
      clearInterval(looking);
      window.removeEventListener('keydown', onKey, { capture: true });
    };
  }, [asking]);

  return (
    <>
      <Gauge
        label={say('controls.dead-zone')}
        value={hand.padDeadZone}
        low={0.02}
        high={0.6}
        step={0.01}
        markEvery={0.1}
        words={share}
        mark={share}
        whenLetGo
        onChange={(padDeadZone) => onChange({ padDeadZone })}
      />
      <Choice<HandSettings['padMoves']>
        label={say('controls.pad-moves')}
        value={hand.padMoves}
        options={[
          { value: 'left', label: say('pad.left-stick') },
          { value: 'right', label: say('pad.right-stick') },
        ]}
        onChange={(padMoves) => onChange({ padMoves })}
      />
      <Tick label={say('controls.rumble')} isSelected={hand.padRumble} onChange={(padRumble) => onChange({ padRumble })} />
      <BindingTable<PadAction>
        label={say('controls.pad')}
        actions={PAD_ACTIONS}
        asking={asking}
        asked={say('controls.press-pad')}
        nameOf={(action) => buttonName(buttonOf(action, hand))}
        onAsk={(action) => {
          setSaid(null);
          setAsking(action);
        }}
        said={said}
        onReset={() => {
          onChange({ padButtons: {} });
          setSaid(say('controls.was-reset'));
        }}
      />
    </>
  );
}
