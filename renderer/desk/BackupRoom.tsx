import type { Session } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { useYard } from '../app/yard-store.ts';
import { YardPage } from '../register/YardPage.tsx';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Told } from '../ui/Told.tsx';
import { useTitle } from '../ui/use-title.ts';
import { BackUpNow } from './BackUpNow.tsx';
import { FileJobLine } from './FileJobLine.tsx';
import { createFileJob, isUnderWay } from './file-job.ts';
import { RestorePanel } from './RestorePanel.tsx';

const ROLES_HERE = ['instructor'] as const;
/** One and the same, or the room would be shown anew for ever while the session is not known. */
const NO_NOTICES: Session['notices'] = [];
const yardTable = createFileJob();
const TABLES = ['runs', 'measures'] as const;

/** The whole yard out to one file and back from it. */
export function BackupRoom() {
  return (
    <YardPage roles={ROLES_HERE}>
      <Backup />
    </YardPage>
  );
}

function Backup() {
  const notices = useYard((state) => state.session?.notices ?? NO_NOTICES);
  const busy = isUnderWay(yardTable.useState());
  useTitle(say('backup.title'));
  return (
    <main id="content" tabIndex={-1} className="home-main desk-room">
      <div>
        <h1>{say('backup.title')}</h1>
        <p className="soft">{say('backup.lead')}</p>
      </div>
      {notices
        .filter(({ code }) => code === 'restored' || code === 'not-restored')
        .map(({ code, message }) => (
          <p key={code} className="notice" data-notice={code}>
            <Told words={inEnglish(message)} />
          </p>
        ))}
      <div className="backup-ways">
        <section aria-labelledby="backup-out">
          <h2 id="backup-out" className="kerf-rule">
            {say('backup.out')}
          </h2>
          <BackUpNow />
        </section>
        <section aria-labelledby="backup-in">
          <h2 id="backup-in" className="kerf-rule">
            {say('backup.in')}
          </h2>
          <RestorePanel />
        </section>
      </div>
      <section aria-labelledby="yard-tables">
        <h2 id="yard-tables" className="kerf-rule">
          {say('backup.tables')}
        </h2>
        <p className="soft">{say('backup.tables.about')}</p>
        <div className="row-actions">
          {TABLES.map((table) => (
            <Action
              key={table}
              isWaiting={busy}
              onPress={() => {
                void yardTable.make(() => callHost('exportRunsCsv', { table }));
              }}
            >
              {say(`backup.tables.${table}`)}
            </Action>
          ))}
        </div>
        <FileJobLine fileJob={yardTable} making={say('file-job.table')} />
      </section>
    </main>
  );
}
