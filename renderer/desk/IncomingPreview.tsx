import { useMemo, useState } from 'react';
import type { PaperJob, TakenDrill } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { useAttempt } from '../app/use-attempt.ts';
import { loadYard, tellTrouble } from '../app/yard-store.ts';
import { momentText } from '../register/dates.ts';
import { type TableColumn, VirtualTable } from '../register/VirtualTable.tsx';
import { say } from '../text/say.ts';
import { useSay } from '../text/use-say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { Problem } from '../ui/Problem.tsx';
import { RunningJob } from '../ui/RunningJob.tsx';
import { Told } from '../ui/Told.tsx';
import type { Choices, IncomingChoice, IncomingDrills, IncomingRow } from './incoming-drills.ts';
import { hereWords, takenWords, takeWords } from './incoming-words.ts';

const KINDS: readonly IncomingRow['kind'][] = ['wrong', 'clash', 'shipped', 'older', 'newer', 'new', 'same'];

export interface IncomingPreviewProps {
  incoming: IncomingDrills;
  onLeave(): void;
}

/** Drills that came in, row by row, with what may be done with each; then what became of each. */
export function IncomingPreview({ incoming, onLeave }: IncomingPreviewProps) {
  const { pack } = incoming;
  // What needs a look comes first.
  const rows = useMemo(() => incoming.rows.toSorted((a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind)), [incoming]);
  const [chosen, setChosen] = useState<Choices>({});
  const [taken, setTaken] = useState<readonly TakenDrill[] | null>(null);
  const { busy, problem, begin } = useAttempt();
  const [job, setJob] = useState<PaperJob | null>(null);
  const [stopped, setStopped] = useState(false);
  const choiceOf = (row: IncomingRow): IncomingChoice => chosen[row.id] ?? row.choices[0] ?? 'leave';
  const wanted = rows.filter((row) => choiceOf(row) !== 'leave').length;

  const take = async () => {
    setStopped(false);
    // Rows that cannot be read have nothing to choose.
    const choices = Object.fromEntries(rows.filter((row) => row.kind !== 'wrong').map((row) => [row.id, choiceOf(row)]));
    const became = await incoming.take(choices, setJob);
    setTaken(became);
    setStopped(became === null);
    if (became !== null) await loadYard();
  };

  return (
    <div className="incoming" tabIndex={-1} data-incoming={taken === null ? 'waits' : 'done'}>
      <div>
        <h3>{pack?.title ?? incoming.fileName}</h3>
        {pack && <p className="soft small">{say('packs.made', { file: incoming.fileName, when: momentText(pack.madeAt) })}</p>}
        {pack && pack.about !== '' && <p className="incoming-about">{pack.about}</p>}
      </div>
      {taken === null ? (
        <>
          <p>{say('packs.preview.about')}</p>
          <OfferedRows
            rows={rows}
            choiceOf={choiceOf}
            onChoose={(id, choice) => setChosen((before) => ({ ...before, [id]: choice }))}
          />
        </>
      ) : (
        <TakenRows rows={rows} taken={taken} />
      )}
      <Problem words={problem} />
      {job && (
        <RunningJob
          label={say('packs.taking')}
          done={job.done}
          total={job.total}
          onStop={() => callHost('stopJob', { jobId: job.id }).catch(tellTrouble)}
        />
      )}
      <p role="status">{stopped && say('packs.stopped')}</p>
      <div className="row-actions">
        {taken === null && (
          <Action isWaiting={busy} onPress={onLeave}>
            {say('packs.leave')}
          </Action>
        )}
        {taken === null ? (
          <Action kind="main" isDisabled={wanted === 0} isWaiting={busy} onPress={() => begin(take).then(() => setJob(null))}>
            {busy ? say('app.wait') : takeWords(wanted)}
          </Action>
        ) : (
          <Action kind="main" onPress={onLeave}>
            {say('packs.done')}
          </Action>
        )}
      </div>
    </div>
  );
}

interface OfferedRowsProps {
  rows: readonly IncomingRow[];
  choiceOf(row: IncomingRow): IncomingChoice;
  onChoose(id: string, choice: IncomingChoice): void;
}

function titleOf(row: IncomingRow) {
  return (
    <>
      {row.title}
      {row.hasDemonstration && <span className="soft small incoming-note">{say('packs.with-demonstration')}</span>}
    </>
  );
}

function OfferedRows({ rows, choiceOf, onChoose }: OfferedRowsProps) {
  const columns: TableColumn<IncomingRow>[] = [
    { id: 'title', head: say('packs.drill'), isRowHead: true, sortBy: ({ title }) => title, show: titleOf },
    {
      id: 'kind',
      head: say('packs.kind'),
      sortBy: ({ kind }) => KINDS.indexOf(kind),
      show: ({ kind }) => <span className={`incoming-kind incoming-${kind}`}>{say(`packs.kind.${kind}`)}</span>,
    },
    { id: 'here', head: say('packs.here'), show: (row) => <Told words={hereWords(row)} /> },
    {
      id: 'choice',
      head: say('packs.choice'),
      show: (row) =>
        row.choices.length < 2 ? (
          <span className="soft">{say(row.kind === 'wrong' ? 'packs.nothing-to-do.wrong' : 'packs.nothing-to-do.same')}</span>
        ) : (
          <Pick<IncomingChoice>
            label={say('packs.choice-long', { drill: row.title })}
            labelOutOfSight
            value={choiceOf(row)}
            options={row.choices.map((value) => ({ value, label: say(`packs.choice.${value}`) }))}
            onChange={(choice) => onChoose(row.id, choice)}
          />
        ),
    },
  ];
  return (
    <VirtualTable
      label={say('packs.preview')}
      rows={rows}
      columns={columns}
      keyOf={({ id, hash }) => `${id} ${hash}`}
      marksOf={({ id, kind }) => ({ 'data-drill': id, 'data-kind': kind })}
    />
  );
}

function TakenRows({ rows, taken }: { rows: readonly IncomingRow[]; taken: readonly TakenDrill[] }) {
  const say = useSay();
  const columns = useMemo((): TableColumn<IncomingRow>[] => {
    const takenOf = (row: IncomingRow) => (row.kind === 'wrong' ? undefined : taken.find(({ packId }) => packId === row.id));
    return [
      { id: 'title', head: say('packs.drill'), isRowHead: true, sortBy: ({ title }) => title, show: ({ title }) => title },
      { id: 'became', head: say('packs.became'), show: (row) => <Told words={takenWords(row, takenOf(row))} /> },
    ];
  }, [taken, say]);
  return (
    <>
      <p role="status" className="roster-sum">
        {say('packs.taken', { taken: taken.length, left: rows.length - taken.length })}
      </p>
      <VirtualTable
        label={say('packs.result')}
        rows={rows}
        columns={columns}
        keyOf={({ id, hash }) => `${id} ${hash}`}
        marksOf={({ id }) => ({ 'data-became': taken.find(({ packId }) => packId === id)?.choice ?? 'leave', 'data-drill': id })}
      />
    </>
  );
}
