import { tellTrouble } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Problem } from '../ui/Problem.tsx';
import { RunningJob } from '../ui/RunningJob.tsx';
import { type FileJob, isUnderWay } from './file-job.ts';

export interface FileJobLineProps {
  fileJob: FileJob;
  /** What is being made, while it is. */
  making: string;
}

/** How far a file is that was asked for, with the way to stop it; then where it went, or why it was not made. */
export function FileJobLine({ fileJob, making }: FileJobLineProps) {
  const standing = fileJob.useState();
  const { state, job, done, total, problem } = standing;
  if (state === 'none') return null;
  return (
    <div className="desk-lines" tabIndex={-1} data-file-job={state}>
      {isUnderWay(standing) && (
        <RunningJob
          label={state === 'making' ? making : say('file-job.fetching')}
          done={done}
          total={total}
          onStop={() => fileJob.stop().catch(tellTrouble)}
        />
      )}
      <div role="status">
        {state === 'stopped' && <p>{say('file-job.stopped')}</p>}
        {state === 'done' && <p>{say('file-job.done', { file: job?.file?.fileName ?? '' })}</p>}
      </div>
      <Problem words={state === 'failed' ? problem : null} />
    </div>
  );
}
