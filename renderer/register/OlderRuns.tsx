import { WorkAction } from '../app/WorkAction.tsx';
import { say } from '../text/say.ts';
import { useFocusHandedOn } from '../ui/use-focus-handed-on.ts';

export interface OlderRunsProps {
  shown: number;
  all: number;
  onFetch(): Promise<void>;
}

/**
 * How many runs of all are listed, and the way to more. It goes away when the last ones have come, and stands inside an element with
 * `tabIndex={-1}`, which takes the focus over then.
 */
export function OlderRuns({ shown, all, onFetch }: OlderRunsProps) {
  const line = useFocusHandedOn<HTMLParagraphElement>();
  return (
    <p className="row-actions" ref={line}>
      <span className="soft small">{say('run.shown', { shown, all })}</span>
      <WorkAction work={onFetch}>{say('run.older')}</WorkAction>
    </p>
  );
}
