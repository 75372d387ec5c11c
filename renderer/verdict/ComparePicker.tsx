import { useState } from 'react';
import { goTo } from '../app/route.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { REFERENCE } from './compared-run.ts';
import { useComparable } from './use-comparable.ts';

/** Chooses what a run is laid beside. */
export function ComparePicker({ runId, drillId }: { runId: string; drillId: string }) {
  const options = useComparable(runId, drillId);
  const [otherId, setOtherId] = useState(REFERENCE);
  return (
    <div className="compare-pick">
      <Pick label={say('compare.with')} value={otherId} options={options} onChange={setOtherId} />
      <Action onPress={() => goTo({ at: 'compare', runId, otherId })}>{say('compare.open')}</Action>
    </div>
  );
}
