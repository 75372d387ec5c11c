import { useMemo, useState } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import type { QueueRow } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { useYard } from '../app/yard-store.ts';
import { momentText } from '../register/dates.ts';
import { FormDialog } from '../register/FormDialog.tsx';
import { personText } from '../register/person-text.ts';
import { type TableColumn, VirtualTable } from '../register/VirtualTable.tsx';
import { say } from '../text/say.ts';
import { Pick } from '../ui/Pick.tsx';
import { Tick } from '../ui/Tick.tsx';
import { Told } from '../ui/Told.tsx';
import { DecisionMark } from './DecisionMark.tsx';
import { type QueueFilter, useQueue, WAITING } from './use-queue.ts';

/** Most runs that a set takes. */
const MOST_RUNS = 200;
const ANY = 'any';
const EVERY_RUN: QueueFilter = { ...WAITING, state: 'all' };

export interface MakeSetDialogProps {
  isOpen: boolean;
  onOpenChange(open: boolean): void;
  onMade(): Promise<void>;
}

/** Name, two assessors, and the runs they are to judge. */
export function MakeSetDialog({ isOpen, onOpenChange, onMade }: MakeSetDialogProps) {
  const people = useYard((state) => state.people);
  const assessors = people.filter(({ role }) => role === 'assessor');
  const [title, setTitle] = useState('');
  const [firstId, setFirstId] = useState<string | null>(null);
  const [secondId, setSecondId] = useState<string | null>(null);
  const drills = useYard((state) => state.drills);
  const [filter, setFilter] = useState(EVERY_RUN);
  const queue = useQueue(filter);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const columns = useMemo(() => columnsOf(chosen, setChosen), [chosen]);
  const first = firstId ?? assessors[0]?.id ?? '';
  const second = secondId ?? assessors.find(({ id }) => id !== first)?.id ?? '';
  const ready =
    title.trim() !== '' && first !== '' && second !== '' && first !== second && chosen.size > 0 && chosen.size <= MOST_RUNS;
  const options = assessors.map(({ id, name }) => ({ value: id, label: personText(name) }));
  return (
    <FormDialog
      title={say('moderation.make')}
      isOpen={isOpen}
      onOpenChange={onOpenChange}
      leave={say('moderation.make.leave')}
      keep={say('moderation.make.keep')}
      ready={ready}
      wide
      onKeep={async () => {
        await callHost('makeModerationSet', { title: title.trim(), runIds: [...chosen], firstId: first, secondId: second });
        setTitle('');
        setChosen(new Set());
        await onMade();
      }}
    >
      {assessors.length < 2 ? (
        <p className="notice">{say(`moderation.make.needs-two.${assessors.length === 0 ? 'none' : 'one'}`)}</p>
      ) : (
        <div className="queue-filter">
          <TextField className="entry" value={title} onChange={setTitle} maxLength={120} autoFocus>
            <Label>{say('moderation.make.title')}</Label>
            <Input className="price-input" />
          </TextField>
          <Pick label={say('moderation.make.first')} value={first} options={options} onChange={setFirstId} />
          <Pick
            label={say('moderation.make.second')}
            value={second}
            options={options.filter(({ value }) => value !== first)}
            onChange={setSecondId}
          />
        </div>
      )}
      <fieldset className="set-runs">
        <legend>
          {say('moderation.make.runs')} <span className="soft">{say('moderation.make.chosen', { chosen: chosen.size })}</span>
        </legend>
        <Pick
          label={say('queue.drill')}
          value={filter.drillId ?? ANY}
          options={[
            { value: ANY, label: say('queue.any') },
            ...drills.map(({ id, title: name }) => ({ value: id, label: name })),
          ]}
          onChange={(key) => setFilter({ ...filter, drillId: key === ANY ? null : key })}
        />
        {!queue.loading && queue.rows.length === 0 && (
          <p className="soft">{say(filter.drillId === null ? 'moderation.make.no-runs' : 'queue.none-so')}</p>
        )}
        {queue.failure !== null && (
          <p role="alert">
            <Told words={queue.failure} />
          </p>
        )}
        {queue.rows.length > 0 && (
          <VirtualTable
            label={say('moderation.make.runs')}
            rows={queue.rows}
            columns={columns}
            keyOf={({ run }) => run.id}
            total={queue.total}
            onNearEnd={queue.more}
          />
        )}
        {chosen.size > MOST_RUNS && <p className="notice">{say('moderation.make.too-many', { most: MOST_RUNS })}</p>}
      </fieldset>
    </FormDialog>
  );
}

function columnsOf(chosen: ReadonlySet<string>, onChoose: (chosen: ReadonlySet<string>) => void): TableColumn<QueueRow>[] {
  return [
    {
      id: 'run',
      head: say('moderation.run'),
      isRowHead: true,
      show: ({ run }) => (
        <Tick
          isSelected={chosen.has(run.id)}
          label={say('moderation.make.run', {
            person: run.personName === null ? say('queue.nobody') : personText(run.personName),
            drill: run.drillTitle,
          })}
          onChange={(on) => {
            const next = new Set(chosen);
            if (on) next.add(run.id);
            else next.delete(run.id);
            onChoose(next);
          }}
        />
      ),
    },
    {
      id: 'since',
      head: say('queue.column.since'),
      show: ({ run }) => <span className="figure">{momentText(run.assessment?.submittedAt ?? run.beganAt)}</span>,
    },
    {
      id: 'decision',
      head: say('queue.column.decision'),
      show: ({ run }) => <DecisionMark decision={run.assessment?.decision ?? null} />,
    },
  ];
}
