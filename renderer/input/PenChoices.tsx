import type { HandSettings } from '../../electron/contract.ts';
import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { Gauge } from '../ui/Gauge.tsx';
import { percentText } from '../ui/number-text.ts';
import type { HandChoicesProps } from './ControlsDialog.tsx';

const TRIGGERS = ['tip', 'barrel'] as const;
const TILTS = ['true', 'from-rest', 'off'] as const;
const share = (value: number) => percentText(value * 100);

/** What pulls the trigger of the pen, and whether the torch leans as it does. */
export function PenChoices({ hand, onChange }: HandChoicesProps) {
  return (
    <>
      <Choice<HandSettings['penTrigger']>
        label={say('controls.pen-trigger')}
        value={hand.penTrigger}
        options={TRIGGERS.map((value) => ({ value, label: say(`controls.pen-trigger.${value}`) }))}
        onChange={(penTrigger) => onChange({ penTrigger })}
      />
      {hand.penTrigger === 'tip' && (
        <Gauge
          label={say('controls.pen-pressure')}
          value={hand.penPressure}
          low={0.05}
          high={0.95}
          step={0.05}
          markEvery={0.15}
          words={share}
          mark={share}
          whenLetGo
          onChange={(penPressure) => onChange({ penPressure })}
        />
      )}
      <Choice<HandSettings['penTilt']>
        label={say('controls.pen-tilt')}
        value={hand.penTilt}
        options={TILTS.map((value) => ({ value, label: say(`controls.pen-tilt.${value}`) }))}
        onChange={(penTilt) => onChange({ penTilt })}
      />
      {(['height', 'lean', 'end'] as const).map((part) => (
        <p key={part} className="soft small">
          {say(`controls.pen.${part}`)}
        </p>
      ))}
    </>
  );
}
