import type { ReactNode } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { useAttempt } from '../app/use-attempt.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Problem } from '../ui/Problem.tsx';

export interface FormDialogProps {
  title: string;
  isOpen: boolean;
  onOpenChange(open: boolean): void;
  /** Names of the two ways out. */
  leave: string;
  keep: string;
  /** Whether what is filled in can be kept. */
  ready: boolean;
  /** What it has to tell first is still looked up: the button of the dialog can be reached, and does nothing yet. */
  waits?: boolean;
  wide?: boolean;
  /** Does it; rejects with a sentence, which is shown in place. */
  onKeep(): Promise<void>;
  children: ReactNode;
}

/** A few questions, kept all at once or not at all. What does not work is told inside, and nothing that was typed is lost. */
export function FormDialog(props: FormDialogProps) {
  return (
    <ModalOverlay className="veil" isDismissable isOpen={props.isOpen} onOpenChange={props.onOpenChange}>
      <Modal className={props.wide ? 'wide-modal' : 'form-modal'}>
        <Dialog className="dialog form-dialog">
          <FormBody {...props} />
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function FormBody({ title, leave, keep, ready, waits = false, onKeep, onOpenChange, children }: FormDialogProps) {
  const { busy, problem, begin } = useAttempt();
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) void begin(() => onKeep().then(() => onOpenChange(false)));
      }}
    >
      <Heading slot="title">{title}</Heading>
      {children}
      <Problem words={problem} />
      <p className="out-of-sight" role="status">
        {busy && say('app.busy')}
      </p>
      <div className="dialog-actions">
        <Action onPress={() => onOpenChange(false)}>{leave}</Action>
        <Action kind="main" type="submit" isDisabled={!ready} isWaiting={busy || waits}>
          {busy ? say('app.wait') : keep}
        </Action>
      </div>
    </form>
  );
}
