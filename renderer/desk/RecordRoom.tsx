import { useCallback, useMemo, useState } from 'react';
import { LEDGER_KINDS, type LedgerEntry, type LedgerKind, type Reply } from '../../electron/contract.ts';
import { WorkAction } from '../app/WorkAction.tsx';
import { useYard } from '../app/yard-store.ts';
import { dayText, momentText } from '../register/dates.ts';
import { personText } from '../register/person-text.ts';
import { type TableColumn, VirtualTable } from '../register/VirtualTable.tsx';
import { YardPage } from '../register/YardPage.tsx';
import { say } from '../text/say.ts';
import { useSay } from '../text/use-say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { useTitle } from '../ui/use-title.ts';
import { ChainSign } from './ChainSign.tsx';
import { EntryDialog } from './EntryDialog.tsx';
import { entryWords, kindName, type YardNames } from './entry-words.ts';
import { ALL_OF_IT, NOBODY, type RecordFilter, useCorrections, useRecord } from './use-record.ts';
import { useYardNames } from './use-yard-names.ts';

const ROLES_HERE = ['instructor', 'assessor'] as const;
const ANY = 'any';

/** Who did what, newest first, and whether anybody was at the record behind Kerfhand's back. */
export function RecordRoom() {
  return (
    <YardPage roles={ROLES_HERE}>
      <AuditTrail />
    </YardPage>
  );
}

function AuditTrail() {
  const [filter, setFilter] = useState<RecordFilter>(ALL_OF_IT);
  const [chain, setChain] = useState<Reply<'checkLedger'> | null>(null);
  const [open, setOpen] = useState<LedgerEntry | null>(null);
  const { entries, total, more, all, again } = useRecord(filter);
  const corrections = useCorrections();
  const names = useYardNames();
  useTitle(say('record.title'));
  const print = async () => {
    await all();
    // The last rows are drawn before the paper is taken.
    requestAnimationFrame(() => window.print());
  };
  const corrected = useCallback(async () => {
    await Promise.all([again(), corrections.again()]);
  }, [again, corrections.again]);
  const columns = useColumns(names, chain?.firstWrong ?? null, corrections.of, setOpen);
  return (
    <main id="content" tabIndex={-1} className="home-main desk-room record-room">
      <div className="home-ask">
        <div>
          <h1>{say('record.title')}</h1>
          <p className="soft not-printed">{say('record.lead')}</p>
          <p className="printed-only">{say('record.printed', { date: dayText(new Date().toISOString()), count: total })}</p>
        </div>
        <WorkAction className="not-printed" work={print}>
          {say('record.print')}
        </WorkAction>
      </div>
      <ChainSign entries={corrections.of.size} onFound={setChain} />
      <section aria-label={say('record.entries')}>
        <FilterBar filter={filter} total={entries === null ? null : total} onChange={setFilter} />
        {entries !== null && entries.length === 0 && <p className="soft">{say('record.none')}</p>}
        {entries !== null && entries.length > 0 && (
          <VirtualTable
            label={say('record.entries')}
            rows={entries}
            columns={columns}
            keyOf={({ seq }) => String(seq)}
            marksOf={({ seq, kind }) => ({
              'data-seq': String(seq),
              'data-kind': kind,
              ...(seq === chain?.firstWrong ? { 'data-wrong': 'true' } : {}),
            })}
            total={total}
            onNearEnd={more}
          />
        )}
      </section>
      {open && (
        <EntryDialog
          key={open.seq}
          entry={open}
          names={names}
          correctedBy={corrections.of.get(open.seq) ?? []}
          onClose={() => setOpen(null)}
          onCorrected={corrected}
        />
      )}
    </main>
  );
}

interface FilterBarProps {
  filter: RecordFilter;
  /** Entries that fit; null until it is known. */
  total: number | null;
  onChange(filter: RecordFilter): void;
}

function FilterBar({ filter, total, onChange }: FilterBarProps) {
  const people = useYard((state) => state.people);
  const staffFirst = useMemo(
    () => people.toSorted((a, b) => Number(a.role === 'apprentice') - Number(b.role === 'apprentice')),
    [people],
  );
  const found = total === null ? '' : total === 1 ? say('record.found-one') : say('record.found', { count: total });
  return (
    <div className="drill-filter">
      <Pick<LedgerKind | typeof ANY>
        label={say('record.kind')}
        value={filter.kind ?? ANY}
        options={[{ value: ANY, label: say('record.any') }, ...LEDGER_KINDS.map((value) => ({ value, label: kindName(value) }))]}
        onChange={(kind) => onChange({ ...filter, kind: kind === ANY ? null : kind })}
      />
      <Pick
        label={say('record.who')}
        value={filter.who ?? ANY}
        options={[
          { value: ANY, label: say('record.any-person') },
          { value: NOBODY, label: say('record.nobody') },
          ...staffFirst.map(({ id, name }) => ({ value: id, label: personText(name) })),
        ]}
        onChange={(who) => onChange({ ...filter, who: who === ANY ? null : who })}
      />
      <p className="soft" role="status">
        {found}
      </p>
      {(filter.kind !== null || filter.who !== null) && (
        <Action className="not-printed" onPress={() => onChange(ALL_OF_IT)}>
          {say('record.clear')}
        </Action>
      )}
    </div>
  );
}

function useColumns(
  names: YardNames,
  firstWrong: number | null,
  corrections: ReadonlyMap<number, number[]>,
  onOpen: (entry: LedgerEntry) => void,
): TableColumn<LedgerEntry>[] {
  const say = useSay();
  return useMemo(
    () => [
      { id: 'seq', head: say('record.seq'), toRight: true, show: ({ seq }) => <span className="figure">{seq}</span> },
      {
        id: 'at',
        head: say('record.at'),
        show: ({ at, kind }) => <span className="figure">{kind === 'unreadable' ? '–' : momentText(at)}</span>,
      },
      {
        id: 'who',
        head: say('record.who'),
        show: ({ who }) => (
          <span className="figure">{who === null ? say('record.nobody') : (names.person(who) ?? say('record.stranger'))}</span>
        ),
      },
      {
        id: 'what',
        head: say('record.what'),
        isRowHead: true,
        show: (entry) => (
          <>
            {entryWords(entry, names)}
            {entry.seq === firstWrong && <strong className="entry-wrong">{say('record.does-not-fit')}</strong>}
            {corrections.get(entry.seq)?.map((by) => (
              <span key={by} className="soft small entry-corrected">
                {say('record.corrected-by', { seq: by })}
              </span>
            ))}
          </>
        ),
      },
      {
        id: 'open',
        head: say('record.open'),
        headOutOfSight: true,
        toRight: true,
        show: (entry) => (
          <Action
            className="not-printed small-action"
            aria-label={say('record.open-long', { seq: entry.seq })}
            onPress={() => onOpen(entry)}
          >
            {say('record.open')}
          </Action>
        ),
      },
    ],
    [names, firstWrong, corrections, onOpen, say],
  );
}
