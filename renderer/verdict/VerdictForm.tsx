import { useEffect, useRef, useState } from 'react';
import type { Decision } from '../../electron/contract.ts';
import type { Score } from '../../sim-core/index.ts';
import { useAttempt } from '../app/use-attempt.ts';
import { SecretField } from '../register/SecretField.tsx';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Choice } from '../ui/Choice.tsx';
import { Problem } from '../ui/Problem.tsx';
import { OverruledTotals } from './OverruledTotals.tsx';
import { OverruleRow } from './OverruleRow.tsx';
import type { Trust } from './use-trust.ts';
import { missingFrom, overrule, useDraft, type VerdictDraft } from './verdict-draft.ts';
import { WrittenField } from './WrittenField.tsx';

export interface VerdictFormProps {
  runId: string;
  score: Score | null;
  /** Score from which the drill's own rule passes a run. */
  passMark: number;
  trust: Trust['state'];
  /** Who signs; null where nothing is signed, as in a blind judgement. */
  signer: string | null;
  /** Name of the button. */
  action: string;
  /** Whether it came by a press on a button that is gone. */
  takesFocus?: boolean;
  /** Signs and keeps it; rejects with one sentence. */
  onSign(draft: VerdictDraft & { decision: Decision }, passphrase: string): Promise<void>;
}

/** Verdict, reasons, marks that are overruled, and the signature. */
export function VerdictForm({ runId, score, passMark, trust, signer, action, takesFocus = false, onSign }: VerdictFormProps) {
  const form = useRef<HTMLFormElement>(null);
  const [draft, change] = useDraft(runId);
  const [passphrase, setPassphrase] = useState('');
  const { busy, problem, begin, forget } = useAttempt();
  const [asked, setAsked] = useState(false);
  const missing = missingFrom(draft, signer === null ? null : passphrase, trust);

  useEffect(() => {
    if (takesFocus) form.current?.focus();
  }, [takesFocus]);

  async function sign(): Promise<void> {
    setAsked(true);
    forget();
    const { decision } = draft;
    if (missing.length > 0 || decision === null || busy) return;
    await begin(() => onSign({ ...draft, decision }, passphrase));
    setPassphrase('');
  }

  return (
    <form
      className="verdict-form"
      ref={form}
      tabIndex={-1}
      aria-label={action}
      onSubmit={(event) => {
        event.preventDefault();
        void sign();
      }}
    >
      <Choice<Decision | ''>
        label={say('verdict.decision')}
        value={draft.decision ?? ''}
        options={[
          { value: 'competent', label: say('verdict.competent') },
          { value: 'not-yet-competent', label: say('verdict.not-yet-competent') },
        ]}
        onChange={(decision) => decision !== '' && change({ decision })}
      />
      <WrittenField
        label={say('verdict.reasons')}
        about={say('verdict.reasons.about')}
        value={draft.reasons}
        onChange={(reasons) => change({ reasons })}
      />
      {score && (
        <section className="overrules">
          <h2 className="kerf-rule">{say('verdict.marks')}</h2>
          <p className="soft small">{say('verdict.marks.about')}</p>
          <ul>
            {score.measures.map((measure) => (
              <OverruleRow
                key={measure.id}
                measure={measure}
                overruled={draft.overruled.find(({ measureId }) => measureId === measure.id) ?? null}
                onChange={(part) => change({ overruled: overrule(draft, measure.id, part) })}
              />
            ))}
          </ul>
          <OverruledTotals score={score} overruled={draft.overruled} passMark={passMark} />
        </section>
      )}
      {signer !== null && (
        <>
          <SecretField label={say('verdict.passphrase', { person: signer })} value={passphrase} known onChange={setPassphrase} />
          <p className="soft small">{say('verdict.passphrase.about')}</p>
        </>
      )}
      <div role="status">
        {asked && missing.length > 0 && !busy && problem === null && (
          <>
            <p>{say('verdict.before')}</p>
            <ul className="verdict-missing">
              {missing.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </>
        )}
      </div>
      <Problem words={problem} />
      <Action kind="main" type="submit" isWaiting={busy}>
        {busy ? say('verdict.signing') : action}
      </Action>
    </form>
  );
}
