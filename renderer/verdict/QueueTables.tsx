import type { RunChoice } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { tellTrouble } from '../app/yard-store.ts';
import { useMe } from '../register/signed-in.ts';
import { offerFile } from '../review/offer-file.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { StatementsDialog } from './StatementsDialog.tsx';
import type { QueueFilter } from './use-queue.ts';

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
  const choice = choiceOf(filter);
  return (
    <section className="queue-tables" aria-labelledby="tables-title">
      <h2 id="tables-title">{say('tables.title')}</h2>
      <p className="soft small">{say('tables.about')}</p>
      <div className="hand-out">
        {TABLES.map((table) => (
          <Action
            key={table}
            onPress={() =>
              callHost('exportRunsCsv', { table, ...choice })
                .then(offerFile)
                .catch(tellTrouble)
            }
          >
            {say(`tables.${table}`)}
          </Action>
        ))}
        {me?.role === 'instructor' && <StatementsDialog choice={choice} />}
      </div>
    </section>
  );
}
