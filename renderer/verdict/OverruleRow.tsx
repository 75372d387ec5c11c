import { Label, NumberField } from 'react-aria-components';
import type { MeasureScore } from '../../sim-core/index.ts';
import { measureName } from '../review/score-words.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { NumberInput } from '../ui/NumberInput.tsx';
import { markText } from '../ui/units.ts';
import type { Overruling } from './verdict-draft.ts';
import { WrittenField } from './WrittenField.tsx';

export interface OverruleRowProps {
  measure: Pick<MeasureScore, 'id' | 'mark' | 'mustReach'>;
  overruled: Overruling | null;
  /** null = keep the mark of the run. */
  onChange(change: Partial<Overruling> | null): void;
}

/** A mark of the run, and beside it the assessor's own with its reason. */
export function OverruleRow({ measure, overruled, onChange }: OverruleRowProps) {
  const name = measureName(measure.id);
  return (
    <li className="overrule" data-measure={measure.id} data-overruled={overruled !== null}>
      <div className="overrule-head">
        <h3>{name}</h3>
        <span className="figure">
          {overruled === null ? (
            markText(measure.mark, measure.mustReach)
          ) : (
            <>
              <s>{markText(measure.mark, measure.mustReach)}</s> <strong>{markText(overruled.mark, null)}</strong>
            </>
          )}
        </span>
        {overruled === null ? (
          <Action
            className="small-action"
            aria-label={say('verdict.overrule-long', { measure: name })}
            onPress={() => onChange({ mark: Math.round(measure.mark) })}
          >
            {say('verdict.overrule')}
          </Action>
        ) : (
          <Action
            className="small-action"
            aria-label={say('verdict.overrule.drop-long', { measure: name })}
            onPress={() => onChange(null)}
          >
            {say('verdict.overrule.drop')}
          </Action>
        )}
      </div>
      {overruled !== null && (
        <div className="overrule-own">
          <NumberField
            className="entry"
            value={overruled.mark}
            minValue={0}
            maxValue={100}
            step={1}
            onChange={(mark) => Number.isFinite(mark) && onChange({ mark })}
          >
            <Label>{say('verdict.overrule.mark')}</Label>
            <NumberInput className="price-input overrule-mark" />
          </NumberField>
          <WrittenField
            label={say('verdict.overrule.reason')}
            value={overruled.reason}
            rows={2}
            onChange={(reason) => onChange({ reason })}
          />
        </div>
      )}
    </li>
  );
}
