import type { Group } from '../../electron/contract.ts';
import { MEASURE_IDS } from '../../sim-core/index.ts';
import { useYard } from '../app/yard-store.ts';
import { measureName } from '../review/score-words.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { QUEUE_STATES, type QueueFilter, type QueueState, WAITING } from './use-queue.ts';

const ANY = 'any';

export interface QueueFilterBarProps {
  filter: QueueFilter;
  groups: readonly Group[];
  found: number;
  onChange(filter: QueueFilter): void;
}

/** Narrows the queue by verdict, drill, group and weakest measure. */
export function QueueFilterBar({ filter, groups, found, onChange }: QueueFilterBarProps) {
  const drills = useYard((state) => state.drills);
  const any = { value: ANY, label: say('queue.any') };
  const change = (part: Partial<QueueFilter>) => onChange({ ...filter, ...part });
  const orNull = (key: string) => (key === ANY ? null : key);
  const narrowed = filter.drillId !== null || filter.groupId !== null || filter.measureId !== null;
  return (
    <div className="queue-filter">
      <Pick
        label={say('queue.state')}
        value={filter.state}
        options={QUEUE_STATES.map((state) => ({ value: state, label: say(`queue.state.${state}`) }))}
        onChange={(state) => change({ state: state as QueueState })}
      />
      <Pick
        label={say('queue.drill')}
        value={filter.drillId ?? ANY}
        options={[any, ...drills.map((drill) => ({ value: drill.id, label: drill.title }))]}
        onChange={(key) => change({ drillId: orNull(key) })}
      />
      {groups.length > 0 && (
        <Pick
          label={say('queue.group')}
          value={filter.groupId ?? ANY}
          options={[any, ...groups.map((group) => ({ value: group.id, label: group.name }))]}
          onChange={(key) => change({ groupId: orNull(key) })}
        />
      )}
      <Pick
        label={say('queue.measure')}
        value={filter.measureId ?? ANY}
        options={[any, ...MEASURE_IDS.map((id) => ({ value: id, label: measureName(id) }))]}
        onChange={(key) => change({ measureId: orNull(key) })}
      />
      <p className="soft" role="status" data-found={found}>
        {found === 1 ? say('queue.found-one') : say('queue.found', { found })}
      </p>
      {narrowed && <Action onPress={() => onChange({ ...WAITING, state: filter.state })}>{say('queue.clear')}</Action>}
    </div>
  );
}
