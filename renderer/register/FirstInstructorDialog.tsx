import { useState } from 'react';
import { say } from '../text/say.ts';
import { FormDialog } from './FormDialog.tsx';
import { checkNewPassphrase, LEAST_CHARACTERS, NO_PASSPHRASE } from './new-passphrase.ts';
import { SecretField } from './SecretField.tsx';
import { makeFirstInstructor } from './signed-in.ts';

export interface FirstInstructorDialogProps {
  isOpen: boolean;
  onOpenChange(open: boolean): void;
}

/** The first passphrase of a yard: what changes with it, and the passphrase twice. */
export function FirstInstructorDialog({ isOpen, onOpenChange }: FirstInstructorDialogProps) {
  const [typed, setTyped] = useState(NO_PASSPHRASE);
  const check = checkNewPassphrase(typed);
  return (
    <FormDialog
      title={say('first.title')}
      isOpen={isOpen}
      onOpenChange={(open) => {
        setTyped(NO_PASSPHRASE);
        onOpenChange(open);
      }}
      leave={say('first.leave')}
      keep={say('first.make')}
      ready={check.good}
      onKeep={() => makeFirstInstructor(typed.passphrase)}
    >
      <p>{say('first.about')}</p>
      <SecretField
        label={say('first.passphrase', { least: LEAST_CHARACTERS })}
        value={typed.passphrase}
        known={false}
        problem={check.short}
        autoFocus
        onChange={(passphrase) => setTyped((now) => ({ ...now, passphrase }))}
      />
      <SecretField
        label={say('first.again')}
        value={typed.again}
        known={false}
        problem={check.differs}
        onChange={(again) => setTyped((now) => ({ ...now, again }))}
      />
      <p className="soft small">{say('first.keep')}</p>
    </FormDialog>
  );
}
