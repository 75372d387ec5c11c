import { useEffect, useState } from 'react';
import { callHost } from '../app/host-client.ts';
import { momentText } from '../register/dates.ts';
import { personText } from '../register/person-text.ts';
import { useSay } from '../text/use-say.ts';
import { scoreText } from '../ui/units.ts';
import { REFERENCE } from './compared-run.ts';

export interface Comparable {
  value: string;
  label: string;
}

const MOST_RUNS = 40;

/** What a run can be laid beside: the reference hand, the demonstration of its drill, and other runs of the same drill. */
export function useComparable(runId: string, drillId: string): readonly Comparable[] {
  const say = useSay();
  const [others, setOthers] = useState<readonly Comparable[]>([]);
  useEffect(() => {
    let wanted = true;
    const look = async () => {
      const [{ runs }, { versions }] = await Promise.all([
        callHost('listRuns', { drillId, states: ['finished'], limit: MOST_RUNS }),
        // Only instructors and assessors see the versions of a drill.
        callHost('listDrillVersions', { id: drillId }).catch(() => ({ versions: [] })),
      ]);
      const shown = new Set(versions.flatMap(({ demonstrationRunId }) => demonstrationRunId ?? []));
      const labelOf = (run: (typeof runs)[number]) => {
        const person = run.personName === null ? say('queue.nobody') : personText(run.personName);
        const when = momentText(run.beganAt);
        if (shown.has(run.id)) return say('compare.demonstration', { person, when });
        if (run.score === null) return say('compare.run-open', { person, when });
        return say('compare.run', { person, when, score: scoreText(run.score) });
      };
      const found = runs.filter((run) => run.id !== runId).map((run) => ({ value: run.id, label: labelOf(run) }));
      const first = found.filter(({ value }) => shown.has(value));
      if (wanted) setOthers([...first, ...found.filter(({ value }) => !shown.has(value))]);
    };
    // The reference hand stays to compare with where the list cannot be had.
    look().catch(() => undefined);
    return () => {
      wanted = false;
    };
  }, [runId, drillId, say]);
  return [{ value: REFERENCE, label: say('compare.reference') }, ...others];
}
