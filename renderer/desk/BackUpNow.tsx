import { callHost } from '../app/host-client.ts';
import { tellTrouble } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Problem } from '../ui/Problem.tsx';
import { RunningJob } from '../ui/RunningJob.tsx';
import { FactsList } from './FactsList.tsx';
import { createFileJob, isUnderWay } from './file-job.ts';
import { LastBackup } from './LastBackup.tsx';

const yardBackup = createFileJob();

/** Makes a backup, tells how far it is, and hands it out. */
export function BackUpNow() {
  const backup = yardBackup.useState();
  const { state, job, done, total, problem } = backup;
  const running = isUnderWay(backup);
  return (
    <div className="desk-lines" tabIndex={-1} data-backup={state}>
      <LastBackup freshId={state === 'done' ? (job?.id ?? null) : null} />
      <p>{say('backup.about')}</p>
      {running && (
        <RunningJob
          label={say(`backup.${backup.state}`)}
          done={done}
          total={total}
          onStop={() => yardBackup.stop().catch(tellTrouble)}
        />
      )}
      <div className="row-actions">
        <Action kind="main" isWaiting={running} onPress={() => void yardBackup.make(() => callHost('backUp', {}))}>
          {say('backup.make')}
        </Action>
      </div>
      <div role="status">
        {state === 'stopped' && <p>{say('backup.stopped')}</p>}
        {state === 'done' && job?.backup && (
          <>
            <p className="roster-sum">{say('backup.done', { file: job.file?.fileName ?? '' })}</p>
            <FactsList facts={job.backup} />
          </>
        )}
      </div>
      <Problem words={state === 'failed' ? problem : null} />
    </div>
  );
}
