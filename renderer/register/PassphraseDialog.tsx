import { useState } from 'react';
import type { Person } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { say } from '../text/say.ts';
import { FormDialog } from './FormDialog.tsx';
import { checkNewPassphrase, LEAST_CHARACTERS, NO_PASSPHRASE } from './new-passphrase.ts';
import { personText } from './person-text.ts';
import { SecretField } from './SecretField.tsx';
import { loadWhoAmI } from './signed-in.ts';

export interface PassphraseDialogProps {
  person: Person;
  /** One's own is changed with the present one; to somebody else an instructor gives one. */
  own: boolean;
  isOpen: boolean;
  onOpenChange(open: boolean): void;
}

export function PassphraseDialog({ person, own, isOpen, onOpenChange }: PassphraseDialogProps) {
  const [current, setCurrent] = useState('');
  const [typed, setTyped] = useState(NO_PASSPHRASE);
  const check = checkNewPassphrase(typed);
  const keep = async () => {
    await callHost('setPassphrase', { personId: person.id, passphrase: typed.passphrase, current: own ? current : null });
    await loadWhoAmI();
  };
  return (
    <FormDialog
      title={say('pass.title', { person: personText(person.name) })}
      isOpen={isOpen}
      onOpenChange={(open) => {
        setCurrent('');
        setTyped(NO_PASSPHRASE);
        onOpenChange(open);
      }}
      leave={say('pass.leave')}
      keep={say('pass.keep')}
      ready={check.good && (!own || current !== '')}
      onKeep={keep}
    >
      {own ? (
        <SecretField label={say('pass.current')} value={current} known autoFocus onChange={setCurrent} />
      ) : (
        <p className="soft">{say('pass.retires')}</p>
      )}
      <SecretField
        label={say('first.passphrase', { least: LEAST_CHARACTERS })}
        value={typed.passphrase}
        known={false}
        problem={check.short}
        autoFocus={!own}
        onChange={(passphrase) => setTyped((now) => ({ ...now, passphrase }))}
      />
      <SecretField
        label={say('first.again')}
        value={typed.again}
        known={false}
        problem={check.differs}
        onChange={(again) => setTyped((now) => ({ ...now, again }))}
      />
    </FormDialog>
  );
}
