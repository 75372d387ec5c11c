import { useState } from 'react';
import { Label, Radio, RadioGroup } from 'react-aria-components';
import { type Diagnosis, REMEDY_IDS, type RemedyId, RIG_FAULT_IDS, type RigFaultId } from '../../sim-core/index.ts';
import { spokenLanguage } from '../text/language.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { ARC_SIGNS, type ArcSigns } from './arc-signs.ts';

export interface DiagnosisPanelProps {
  signs: ArcSigns;
  onSay(diagnosis: Diagnosis): void;
}

/** After a run on a rig with something wrong: what it was, and what is to be done. The marks come after the answer, not before. */
export function DiagnosisPanel({ signs, onSay }: DiagnosisPanelProps) {
  const [cause, setCause] = useState<RigFaultId | null>(null);
  const [remedy, setRemedy] = useState<RemedyId | null>(null);
  // By their words, so that a remedy does not stand beside its cause.
  const remedies = REMEDY_IDS.toSorted((a, b) => say(`remedy.${a}`).localeCompare(say(`remedy.${b}`), spokenLanguage()));
  const seen = ARC_SIGNS.filter((sign) => signs.seen[sign] > 0);
  return (
    <section className="diagnosis" aria-labelledby="diagnosis-title">
      <h1 id="diagnosis-title" className="kerf-rule">
        {say('diagnosis.title')}
      </h1>
      <div>
        <h2>{say('diagnosis.seen')}</h2>
        {seen.length === 0 ? (
          <p className="soft">{say('diagnosis.seen-none')}</p>
        ) : (
          <ul className="diagnosis-seen">
            {seen.map((sign) => (
              <li key={sign}>{say(`sign.${sign}`)}</li>
            ))}
          </ul>
        )}
      </div>
      <div className="diagnosis-lists">
        <OneOf<RigFaultId>
          label={say('diagnosis.cause')}
          ids={RIG_FAULT_IDS}
          words={(id) => say(`fault-cause.${id}`)}
          value={cause}
          onChange={setCause}
          autoFocus
        />
        <OneOf<RemedyId>
          label={say('diagnosis.remedy')}
          ids={remedies}
          words={(id) => say(`remedy.${id}`)}
          value={remedy}
          onChange={setRemedy}
        />
      </div>
      <Action
        kind="main"
        isDisabled={cause === null || remedy === null}
        onPress={() => cause !== null && remedy !== null && onSay({ cause, remedy })}
      >
        {say(cause === null || remedy === null ? 'diagnosis.say-waiting' : 'diagnosis.say')}
      </Action>
    </section>
  );
}

interface OneOfProps<T extends string> {
  label: string;
  ids: readonly T[];
  words(id: T): string;
  value: T | null;
  onChange(id: T): void;
  autoFocus?: boolean;
}

function OneOf<T extends string>({ label, ids, words, value, onChange, autoFocus = false }: OneOfProps<T>) {
  return (
    <RadioGroup className="choice choice-list" value={value} onChange={(id) => onChange(id as T)}>
      <Label className="choice-label">{label}</Label>
      {ids.map((id, n) => (
        <Radio key={id} value={id} className="choice-option" autoFocus={autoFocus && n === 0}>
          {words(id)}
        </Radio>
      ))}
    </RadioGroup>
  );
}
