import { say } from '../text/say.ts';
import { Action } from './Action.tsx';
import { Progress } from './Progress.tsx';
import { useFocusHandedOn } from './use-focus-handed-on.ts';

export interface RunningJobProps {
  /** What is being done. */
  label: string;
  /** Of `total`; total 0 = not known yet. */
  done: number;
  total: number;
  onStop(): void;
}

/**
 * Long work under way: a bar, words, and the way to stop it. It stands inside an element with `tabIndex={-1}`, which takes the
 * focus over where the button that goes away had it.
 */
export function RunningJob({ label, done, total, onStop }: RunningJobProps) {
  const box = useFocusHandedOn<HTMLDivElement>();
  return (
    <div className="running-job" ref={box}>
      <Progress label={label} done={done} total={total} />
      <Action aria-label={say('job.stop-long', { what: label })} onPress={onStop}>
        {say('job.stop')}
      </Action>
    </div>
  );
}
