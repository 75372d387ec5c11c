import { useEffect, useRef, useState } from 'react';
import { ARC_STATES, torchBar } from '../../sim-core/index.ts';
import type { RunSource } from '../scene/run-source.ts';
import { say } from '../text/say.ts';
import { percentText } from '../ui/number-text.ts';
import { quantity, type UnitSystem } from '../ui/units.ts';
import type { ArcSign, ArcSigns } from './arc-signs.ts';

const OFF = ARC_STATES.indexOf('off');
const LOOK_MS = 80;

export interface RigSignsProps {
  source: RunSource;
  signs: ArcSigns;
  units: UnitSystem;
  /** False where what is left of the parts would give a fault away. */
  partsShown: boolean;
}

/**
 * What the rig shows while it is used: gas at the regulator and at the torch, how far the torch parts are spent, and in words what
 * the eye sees of an arc that is not right.
 */
export function RigSigns({ source, signs, units, partsShown }: RigSignsProps) {
  const [now, setNow] = useState<readonly ArcSign[]>([]);
  const [flows, setFlows] = useState(false);
  const [spent, setSpent] = useState(0);
  const lookedMs = useRef(Number.NEGATIVE_INFINITY);
  useEffect(
    () =>
      source.onFrame(() => {
        const { sample, hand, tick } = source;
        signs.look(sample, hand.trigger, tick);
        const at = performance.now();
        if (at - lookedMs.current < LOOK_MS) return;
        lookedMs.current = at;
        setNow((shown) => (shown.join() === signs.now.join() ? shown : signs.now));
        setFlows(sample.arcState !== OFF);
        if (Number.isFinite(sample.spentLife)) setSpent(Math.round(sample.spentLife * 100));
      }),
    [source, signs],
  );
  const { fit } = source.setup;
  return (
    <div className="rig-signs">
      {fit && (
        <p className="small rig-signs-gas" data-gas-flows={flows}>
          {say('signs.regulator', { bar: quantity(fit.supplyBar, 'bar', units) })} <span className="soft">/</span>{' '}
          {flows ? say('signs.torch', { bar: quantity(torchBar(fit), 'bar', units) }) : say('signs.no-flow')}
        </p>
      )}
      {partsShown && (
        <p className="small soft" data-parts-spent={spent}>
          {spent === 0 ? say('signs.parts-new') : say('signs.parts', { spent: percentText(spent) })}
        </p>
      )}
      <p className="rig-signs-words" role="status" data-signs={now.join(' ')}>
        {now.map((sign) => say(`sign.${sign}`)).join(' ')}
      </p>
    </div>
  );
}
