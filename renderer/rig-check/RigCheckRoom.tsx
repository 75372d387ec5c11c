import { useEffect, useRef, useState } from 'react';
import { checkRig, type Drill, type RigChoices, type RigFinding } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import type { UnitSystem } from '../ui/units.ts';
import { ClampPlan } from './ClampPlan.tsx';
import { GasSheet } from './GasSheet.tsx';
import { PartsSheet } from './PartsSheet.tsx';
import { PersonSheet } from './PersonSheet.tsx';
import { PlaceSheet } from './PlaceSheet.tsx';
import { Sheet } from './Sheet.tsx';
import { SourceSheet } from './SourceSheet.tsx';
import { StopNotice } from './StopNotice.tsx';

export interface RigCheckRoomProps {
  drill: Drill;
  choices: RigChoices;
  units: UnitSystem;
  onChange(choices: RigChoices): void;
  /** The rig is as the trainee wants it, and nothing about it is unsafe. */
  onStrike(choices: RigChoices): void;
}

/**
 * The rig before the arc: everything lies there to be fitted, set and looked after. What is unsafe stops the run here and says why;
 * what is merely wrong goes along into the cut and shows itself at the arc.
 */
export function RigCheckRoom({ drill, choices, units, onChange, onStrike }: RigCheckRoomProps) {
  const [stops, setStops] = useState<readonly RigFinding[]>([]);
  const title = useRef<HTMLHeadingElement>(null);
  // The card whose button led here is gone.
  useEffect(() => title.current?.focus(), []);
  const sheet = { drill, choices, units, change: (part: Partial<RigChoices>) => onChange({ ...choices, ...part }) };

  function strike(): void {
    const found = checkRig(drill, choices).filter((finding) => finding.severity === 'stops');
    setStops(found);
    if (found.length === 0) onStrike(choices);
  }

  return (
    <div className="rig-room">
      <header className="rig-head">
        <h1 ref={title} tabIndex={-1}>
          {say('rig.title')}
        </h1>
        <p>{say('rig.lead')}</p>
      </header>
      <StopNotice findings={stops} />
      <div className="rig-sheets">
        <PartsSheet {...sheet} />
        <GasSheet {...sheet} />
        <Sheet name="clamp">
          <ClampPlan drill={drill} value={choices.clampSpot} onChange={(clampSpot) => sheet.change({ clampSpot })} />
        </Sheet>
        <SourceSheet {...sheet} />
        <PersonSheet {...sheet} />
        <PlaceSheet {...sheet} />
      </div>
      <div className="rig-foot">
        {stops.length > 0 && <p className="rig-stopped">{say('rig.stop.count', { count: stops.length })}</p>}
        <Action kind="main" className="rig-strike" onPress={strike}>
          {say('rig.strike')}
        </Action>
      </div>
    </div>
  );
}
