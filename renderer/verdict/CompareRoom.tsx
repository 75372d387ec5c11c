import { useEffect, useState } from 'react';
import { errorWords } from '../app/error-words.ts';
import { goTo } from '../app/route.ts';
import { SettingsMenu } from '../app/SettingsMenu.tsx';
import type { ReviewedRun } from '../review/fresh-run.ts';
import { loadRun } from '../review/load-run.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { Told } from '../ui/Told.tsx';
import { useTitle } from '../ui/use-title.ts';
import { CompareWork } from './CompareWork.tsx';
import { otherRun, REFERENCE } from './compared-run.ts';
import { useComparable } from './use-comparable.ts';

/** Two runs of one drill side by side, or a run and the reference hand. */
export function CompareRoom({ runId, otherId }: { runId: string; otherId: string }) {
  const [first, setFirst] = useState<ReviewedRun | null>(null);
  const [second, setSecond] = useState<ReviewedRun | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    let wanted = true;
    const fail = (error: unknown) => wanted && setFailure(errorWords(error));
    loadRun(runId).then((run) => wanted && setFirst(run), fail);
    const other = otherRun(runId, otherId);
    other.answer.then((run) => wanted && setSecond(run), fail);
    return () => {
      wanted = false;
      other.cancel();
    };
  }, [runId, otherId]);
  useTitle(say('compare.title'));
  return (
    <div className="compare">
      <header className="bench-head">
        <Action kind="quiet" onPress={() => goTo({ at: 'review', runId })}>
          {say('compare.back')}
        </Action>
        <h1 className="bench-title review-title">
          <strong>{say('compare.title')}</strong>
          {first && <span>{first.drill.title}</span>}
        </h1>
        {first && <OtherPick runId={runId} drillId={first.drill.id} otherId={otherId} />}
        <SettingsMenu />
      </header>
      {failure !== null && (
        <p className="waiting" role="alert">
          <Told words={failure} />
        </p>
      )}
      {failure === null && (!first || !second) && (
        <p className="waiting" role="status">
          {say(otherId === REFERENCE && first ? 'compare.making' : 'compare.loading')}
        </p>
      )}
      {failure === null && first && second && <Compared first={first} second={second} />}
    </div>
  );
}

function OtherPick({ runId, drillId, otherId }: { runId: string; drillId: string; otherId: string }) {
  const options = useComparable(runId, drillId);
  return (
    <div className="compare-other">
      <Pick
        label={say('compare.with')}
        value={otherId}
        options={options}
        onChange={(next) => next !== otherId && goTo({ at: 'compare', runId, otherId: next })}
      />
    </div>
  );
}

function Compared({ first, second }: { first: ReviewedRun; second: ReviewedRun }) {
  const sameLine = JSON.stringify(first.drill.path) === JSON.stringify(second.drill.path);
  if (!sameLine) return <p className="waiting">{say('compare.other-drill')}</p>;
  if (!first.trace || !second.trace) return <p className="waiting">{say('compare.no-trace')}</p>;
  return <CompareWork first={first} second={second} firstTrace={first.trace} secondTrace={second.trace} />;
}
