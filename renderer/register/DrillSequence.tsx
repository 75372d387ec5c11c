import type { DrillSummary } from '../../electron/contract.ts';
import { keepTogether } from '../text/keep-together.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

export interface DrillSequenceProps {
  drillIds: readonly string[];
  drills: readonly DrillSummary[];
  onChange(drillIds: string[]): void;
}

/** The chosen drills one after the other, each moved up or down by its buttons. */
export function DrillSequence({ drillIds, drills, onChange }: DrillSequenceProps) {
  const move = (from: number, to: number) => {
    const next = [...drillIds];
    next.splice(to, 0, ...next.splice(from, 1));
    onChange(next);
  };
  return (
    <section aria-labelledby="sequence-title">
      <h3 id="sequence-title">{say('assign.form.sequence')}</h3>
      <ol className="sequence">
        {drillIds.map((id, at) => {
          const drill = drills.find((one) => one.id === id)?.title ?? id;
          return (
            <li key={id}>
              <div>
                <span>{keepTogether(drill)}</span>
                <Action isDisabled={at === 0} aria-label={say('assign.form.earlier', { drill })} onPress={() => move(at, at - 1)}>
                  ↑
                </Action>
                <Action
                  isDisabled={at === drillIds.length - 1}
                  aria-label={say('assign.form.later', { drill })}
                  onPress={() => move(at, at + 1)}
                >
                  ↓
                </Action>
              </div>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
