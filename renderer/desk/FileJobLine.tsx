import { tellTrouble } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import type { FileJob } from './file-job.ts';
import { Progress } from './Progress.tsx';

export interface FileJobLineProps {
  fileJob: FileJob;
  /** What is being made, while it is. */
  making: string;
}

/** How far a file is that was asked for, with the way to stop it; then where it went, or why it was not made. */
export function FileJobLine({ fileJob, making }: FileJobLineProps) {
  const { state, job, done, total, problem } = fileJob.useState();
  if (state === 'none') return null;
  const running = state === 'making' || state === 'fetching';
  return (
    <div className="desk-lines" data-file-job={state}>
      {running && (
        <>
          <Progress label={state === 'making' ? making : say('file-job.fetching')} done={done} total={total} />
          <Action onPress={() => fileJob.stop().catch(tellTrouble)}>{say('file-job.stop')}</Action>
        </>
      )}
      <div role="status">
        {state === 'stopped' && <p>{say('file-job.stopped')}</p>}
        {state === 'done' && <p>{say('file-job.done', { file: job?.file?.fileName ?? '' })}</p>}
      </div>
      {state === 'failed' && (
        <p className="entry-problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}
