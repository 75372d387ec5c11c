import { useEffect, useState } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import type { QueueRow } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { tellTrouble, useYard } from '../app/yard-store.ts';
import { FormDialog } from '../register/FormDialog.tsx';
import { say } from '../text/say.ts';
import { Pick } from '../ui/Pick.tsx';
import { Tick } from '../ui/Tick.tsx';
import { momentWords } from './moment-words.ts';

/** Most runs that are offered, and that a set takes. */
const MOST_RUNS = 200;

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
  const [rows, setRows] = useState<readonly QueueRow[]>([]);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  useEffect(() => {
    if (!isOpen) return;
    callHost('listQueue', { state: 'all', limit: MOST_RUNS }).then((reply) => setRows(reply.rows), tellTrouble);
  }, [isOpen]);
  const first = firstId ?? assessors[0]?.id ?? '';
  const second = secondId ?? assessors.find(({ id }) => id !== first)?.id ?? '';
  const ready = title.trim() !== '' && first !== '' && second !== '' && first !== second && chosen.size > 0;
  const options = assessors.map(({ id, name }) => ({ value: id, label: name }));
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
        <p className="notice">{say('moderation.make.needs-two', { count: assessors.length })}</p>
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
        {rows.length === 0 && <p className="soft">{say('moderation.make.no-runs')}</p>}
        {rows.map(({ run }) => (
          <Tick
            key={run.id}
            isSelected={chosen.has(run.id)}
            label={say('moderation.make.run', {
              person: run.personName ?? say('queue.nobody'),
              drill: run.drillTitle,
              when: momentWords(run.assessment?.submittedAt ?? run.beganAt),
            })}
            onChange={(on) => {
              const next = new Set(chosen);
              if (on) next.add(run.id);
              else next.delete(run.id);
              setChosen(next);
            }}
          />
        ))}
      </fieldset>
    </FormDialog>
  );
}
