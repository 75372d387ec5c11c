import type { RunChoice } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { FileJobLine } from '../desk/FileJobLine.tsx';
import { createFileJob, isUnderWay } from '../desk/file-job.ts';
import { useMe } from '../register/signed-in.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { StatementsDialog } from './StatementsDialog.tsx';
import type { QueueFilter } from './use-queue.ts';

const queueTable = createFileJob();
const TABLES = ['runs', 'measures'] as const;

/** The filters of the queue as a choice of runs. */
function choiceOf({ state, drillId, groupId, measureId }: QueueFilter): RunChoice {
  return {
    handedIn: state,
    ...(drillId === null ? {} : { drillId }),
    ...(groupId === null ? {} : { groupId }),
    ...(measureId === null ? {} : { measureId }),
  };
}

/** The runs that the filters leave, as tables, and as statements for a training-record system. */
export function QueueTables({ filter }: { filter: QueueFilter }) {
  const me = useMe();
  const busy = isUnderWay(queueTable.useState());
  const choice = choiceOf(filter);
  return (
    <section className="queue-tables" aria-labelledby="tables-title">
      <h2 id="tables-title">{say('tables.title')}</h2>
      <p className="soft small">{say('tables.about')}</p>
      <div className="hand-out">
        {TABLES.map((table) => (
          <Action
            key={table}
            isWaiting={busy}
            onPress={() => {
              void queueTable.make(() => callHost('exportRunsCsv', { table, ...choice }));
            }}
          >
            {say(`tables.${table}`)}
          </Action>
        ))}
        {me?.role === 'instructor' && <StatementsDialog choice={choice} />}
      </div>
      <FileJobLine fileJob={queueTable} making={say('file-job.table')} />
    </section>
  );
}
