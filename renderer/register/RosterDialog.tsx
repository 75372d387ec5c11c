import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { DropZone, FileTrigger } from 'react-aria-components';
import type { Reply } from '../../electron/contract.ts';
import { errorWords } from '../app/error-words.ts';
import { callHost } from '../app/host-client.ts';
import { onlyLatest } from '../app/only-latest.ts';
import { loadYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { useSay } from '../text/use-say.ts';
import { Action } from '../ui/Action.tsx';
import { Problem } from '../ui/Problem.tsx';
import { Told } from '../ui/Told.tsx';
import { FormDialog } from './FormDialog.tsx';
import { changesWords, groupsWords, personWords } from './roster-words.ts';
import { type TableColumn, VirtualTable } from './VirtualTable.tsx';

export type RosterPreview = Reply<'previewRoster'>;
export type RosterRow = RosterPreview['rows'][number];

interface ReadRoster {
  fileName: string;
  text: string;
  preview: RosterPreview;
}

export interface RosterDialogProps {
  isOpen: boolean;
  /** A file that was dropped in the room; null = it is still to be chosen. */
  brought: File | null;
  onOpenChange(open: boolean): void;
  onTaken(): Promise<void>;
}

/** Takes in a roster: first what it would do, row by row, then all of it or nothing. */
export function RosterDialog({ isOpen, brought, onOpenChange, onTaken }: RosterDialogProps) {
  const [read, setRead] = useState<ReadRoster | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const changes = read === null ? 0 : read.preview.counts.new + read.preview.counts.changed;
  const begin = useRef(onlyLatest());
  const look = useCallback(async (file: File) => {
    const isLatest = begin.current();
    setRead(null);
    setProblem(null);
    try {
      const text = await file.text();
      const preview = await callHost('previewRoster', { text });
      if (isLatest()) setRead({ fileName: file.name, text, preview });
    } catch (error) {
      if (isLatest()) setProblem(errorWords(error));
    }
  }, []);
  useEffect(() => {
    if (brought !== null) void look(brought);
  }, [brought, look]);
  const take = async () => {
    if (read === null) return;
    await callHost('importRoster', { text: read.text });
    await Promise.all([loadYard(), onTaken()]);
  };
  return (
    <FormDialog
      title={say('roster.title')}
      isOpen={isOpen}
      onOpenChange={onOpenChange}
      leave={say(changes === 0 ? 'roster.close' : 'roster.leave')}
      keep={read === null ? say('roster.take') : changesWords(read.preview)}
      ready={changes > 0}
      wide
      onKeep={take}
    >
      <p>{say('roster.about')}</p>
      <DropZone
        className="roster-drop"
        aria-label={say('roster.drop')}
        onDrop={async ({ items }) => {
          const dropped = items.find((item) => item.kind === 'file');
          if (dropped?.kind === 'file') await look(await dropped.getFile());
        }}
      >
        <FileTrigger
          acceptedFileTypes={['.csv', 'text/csv']}
          onSelect={(files) => {
            const file = files?.[0];
            if (file) void look(file);
          }}
        >
          <Action>{say(read === null ? 'roster.choose' : 'roster.other')}</Action>
        </FileTrigger>
        <span className="soft">{read === null ? say('roster.drop') : read.fileName}</span>
      </DropZone>
      <Problem words={problem} />
      {read !== null && <RosterRows preview={read.preview} />}
    </FormDialog>
  );
}

function RosterRows({ preview }: { preview: RosterPreview }) {
  const say = useSay();
  const { counts, newGroups, notNamed, ignoredColumns } = preview;
  const columns = useMemo(
    (): TableColumn<RosterRow>[] => [
      {
        id: 'line',
        head: say('roster.line'),
        toRight: true,
        sortBy: ({ line }) => line,
        show: ({ line }) => <span className="figure">{line}</span>,
      },
      {
        id: 'kind',
        head: say('roster.kind'),
        sortBy: ({ kind }) => KINDS.indexOf(kind),
        show: ({ kind }) => <span className={`roster-kind roster-${kind}`}>{say(`roster.kind.${kind}`)}</span>,
      },
      { id: 'who', head: say('roster.who'), isRowHead: true, show: personWords },
      { id: 'what', head: say('roster.what'), show: (row) => <Told words={groupsWords(row)} /> },
    ],
    [say],
  );
  return (
    <>
      <p role="status" className="roster-sum">
        {say('roster.sum', { ...counts })}
      </p>
      {newGroups.length > 0 && <p>{say('roster.new-groups', { groups: newGroups.join(', ') })}</p>}
      {notNamed.length > 0 && <p className="soft">{say('roster.not-named', { count: notNamed.length })}</p>}
      {ignoredColumns.length > 0 && <p className="soft">{say('roster.ignored', { columns: ignoredColumns.join(', ') })}</p>}
      <VirtualTable
        label={say('roster.rows')}
        rows={preview.rows}
        columns={columns}
        keyOf={({ line }) => String(line)}
        marksOf={({ kind, line }) => ({ 'data-roster': kind, 'data-line': String(line) })}
      />
    </>
  );
}

/** What needs a look comes first when sorted. */
const KINDS: readonly RosterRow['kind'][] = ['wrong', 'new', 'changed', 'unchanged'];
