import { Input, Label, NumberField, TextField } from 'react-aria-components';
import type { Assignment } from '../../electron/contract.ts';
import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { todayForEntry } from './dates.ts';

export interface Terms {
  title: string;
  /** As a date field has it, yyyy-mm-dd; empty = any day. */
  due: string;
  /** null = as each drill says. */
  attempts: number | null;
  cueLevel: Assignment['cueLevel'];
  order: Assignment['order'];
}

export const FIRST_TERMS: Terms = { title: '', due: '', attempts: null, cueLevel: null, order: 'mixed' };

const AS_DRILL = 'null';
const CUES = [AS_DRILL, 'full', 'alternate', 'none'] as const;
const ORDERS = ['mixed', 'as-listed'] as const;
const MOST_ATTEMPTS = 999;

export interface AssignTermsProps {
  terms: Terms;
  onChange(terms: Terms): void;
}

/** Title, date, attempts, cues and order of an assignment. */
export function AssignTerms({ terms, onChange }: AssignTermsProps) {
  const change = (part: Partial<Terms>) => onChange({ ...terms, ...part });
  return (
    <div className="assign-terms">
      <TextField className="entry" value={terms.title} onChange={(title) => change({ title })} maxLength={120}>
        <Label>{say('assign.form.name')}</Label>
        <Input className="price-input" />
      </TextField>
      <TextField className="entry" type="date" value={terms.due} onChange={(due) => change({ due })}>
        <Label>{say('assign.form.due')}</Label>
        <Input className="price-input" min={todayForEntry()} />
      </TextField>
      <NumberField
        className="entry"
        value={terms.attempts ?? Number.NaN}
        minValue={1}
        maxValue={MOST_ATTEMPTS}
        step={1}
        onChange={(attempts) => change({ attempts: Number.isFinite(attempts) ? attempts : null })}
      >
        <Label>{say('assign.form.attempts')}</Label>
        <Input className="price-input" />
      </NumberField>
      <Choice<(typeof CUES)[number]>
        label={say('assign.form.cues')}
        value={terms.cueLevel ?? AS_DRILL}
        onChange={(cue) => change({ cueLevel: cue === AS_DRILL ? null : cue })}
        options={CUES.map((cue) => ({ value: cue, label: say(`assign.form.cues.${cue}`) }))}
      />
      <div>
        <Choice<Terms['order']>
          label={say('assign.form.order')}
          value={terms.order}
          onChange={(order) => change({ order })}
          options={ORDERS.map((order) => ({ value: order, label: say(`assign.form.order.${order}`) }))}
        />
        <p className="soft small">{say('assign.form.order.about')}</p>
      </div>
    </div>
  );
}
