import { useEffect, useState } from 'react';
import { ARC_STATES, type ArcStateName } from '../../sim-core/index.ts';
import type { RunSource } from '../scene/run-source.ts';
import { say } from '../text/say.ts';

const LIT: Record<ArcStateName, number> = { off: 0, 'pre-flow': 1, pilot: 2, transferred: 3, 'post-flow': 1 };

/** State of the arc in words, and as steps: each start passes through them in this order. Changes a few times a run. */
export function ArcState({ source }: { source: RunSource }) {
  const [state, setState] = useState<ArcStateName>('off');
  useEffect(() => source.onFrame(() => setState(ARC_STATES[source.sample.arcState] ?? 'off')), [source]);
  return (
    <p className="arc-state" data-arc={state}>
      <svg viewBox="0 0 44 14" aria-hidden="true" focusable="false">
        {[0, 1, 2].map((step) => (
          <path
            key={step}
            d={`M${step * 15 + 4} 1h10l-3 12h-10z`}
            fill={step < LIT[state] ? 'var(--ember)' : 'none'}
            stroke="var(--edge)"
            strokeWidth={1.5}
          />
        ))}
      </svg>
      {say(`arc.${state}`)}
    </p>
  );
}
