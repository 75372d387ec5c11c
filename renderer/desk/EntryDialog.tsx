import { useState } from 'react';
import { Dialog, Heading, Label, Modal, ModalOverlay, TextArea, TextField } from 'react-aria-components';
import type { LedgerEntry } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { goTo } from '../app/route.ts';
import { useAttempt } from '../app/use-attempt.ts';
import { wholeMomentText } from '../register/dates.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Problem } from '../ui/Problem.tsx';
import { entryWords, kindName, type YardNames } from './entry-words.ts';

const REASON_LEAST = 3;
const REASON_LIMIT = 1000;
/** Kinds whose subject is a run that can be looked at. */
const ABOUT_A_RUN: ReadonlySet<string> = new Set(['run-submitted', 'verdict', 'overrule', 'note']);

export interface EntryDialogProps {
  entry: LedgerEntry;
  names: YardNames;
  /** Numbers of the entries that correct it. */
  correctedBy: readonly number[];
  onClose(): void;
  onCorrected(): Promise<void>;
}

/** One entry with everything it says, and the way to correct it by another. */
export function EntryDialog({ entry, names, correctedBy, onClose, onCorrected }: EntryDialogProps) {
  const { seq, at, who, kind, subject, body, digest } = entry;
  return (
    <ModalOverlay className="veil" isDismissable isOpen onOpenChange={(open) => !open && onClose()}>
      <Modal className="form-modal">
        <Dialog className="dialog">
          <Heading slot="title">{say('record.entry', { seq })}</Heading>
          <p>{entryWords(entry, names)}</p>
          <dl className="desk-facts">
            <div>
              <dt>{say('record.kind')}</dt>
              <dd>{kindName(kind)}</dd>
            </div>
            <div>
              <dt>{say('record.who')}</dt>
              <dd>{who === null ? say('record.nobody') : (names.person(who) ?? say('record.stranger'))}</dd>
            </div>
            <div>
              <dt>{say('record.at')}</dt>
              <dd>{wholeMomentText(at)}</dd>
            </div>
            <div className="whole-row">
              <dt>{say('record.digest')}</dt>
              <dd className="entry-digest">{digest}</dd>
            </div>
          </dl>
          {correctedBy.map((by) => (
            <p key={by} className="soft">
              {say('record.corrected-by', { seq: by })}
            </p>
          ))}
          <details className="entry-body">
            <summary>{say('record.body')}</summary>
            {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a long entry scrolls, and has to by key as well */}
            <pre tabIndex={0}>{JSON.stringify({ subject, ...body }, null, 2)}</pre>
          </details>
          {ABOUT_A_RUN.has(kind) && (
            <Action onPress={() => goTo({ at: 'review', runId: subject })}>{say('record.open-run')}</Action>
          )}
          <details className="entry-correct">
            <summary>{say('record.correct.open')}</summary>
            <Correction seq={seq} onClose={onClose} onCorrected={onCorrected} />
          </details>
          <div className="dialog-actions">
            <Action onPress={onClose}>{say('record.close')}</Action>
          </div>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

interface CorrectionProps {
  seq: number;
  onClose(): void;
  onCorrected(): Promise<void>;
}

function Correction({ seq, onClose, onCorrected }: CorrectionProps) {
  const [reason, setReason] = useState('');
  const { busy, problem, begin } = useAttempt();
  const ready = reason.trim().length >= REASON_LEAST;
  const correct = async () => {
    await callHost('correctEntry', { seq, reason: reason.trim() });
    await onCorrected();
    onClose();
  };
  return (
    <form
      className="desk-lines"
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) void begin(correct);
      }}
    >
      <TextField className="entry" value={reason} onChange={setReason} maxLength={REASON_LIMIT}>
        <Label>{say('record.correct.reason')}</Label>
        <TextArea className="price-input written" rows={2} />
      </TextField>
      <p className="soft small">{say('record.correct.about')}</p>
      <Problem words={problem} />
      <Action kind="main" type="submit" isDisabled={!ready} isWaiting={busy}>
        {busy ? say('app.wait') : say('record.correct')}
      </Action>
    </form>
  );
}
