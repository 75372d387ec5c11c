import { useState } from 'react';
import { Input, Label, Text, TextField } from 'react-aria-components';
import type { RunChoice } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { tellTrouble } from '../app/yard-store.ts';
import { FileJobLine } from '../desk/FileJobLine.tsx';
import { createFileJob, isUnderWay } from '../desk/file-job.ts';
import { FormDialog } from '../register/FormDialog.tsx';
import { SecretField } from '../register/SecretField.tsx';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Choice } from '../ui/Choice.tsx';
import { RunningJob } from '../ui/RunningJob.tsx';
import { Told } from '../ui/Told.tsx';
import { useSending } from './use-sending.ts';

const statementsFile = createFileJob();

type Way = 'file' | 'store';

/** Statements of runs for a training-record system: into a file, or to the system's own address. */
export function StatementsDialog({ choice }: { choice: RunChoice }) {
  const [open, setOpen] = useState(false);
  const [way, setWay] = useState<Way>('file');
  const [homePage, setHomePage] = useState('https://');
  const [endpoint, setEndpoint] = useState('https://');
  const [user, setUser] = useState('');
  const [password, setPassword] = useState('');
  const busy = isUnderWay(statementsFile.useState());
  const sending = useSending(tellTrouble);
  const { job } = sending;
  const ready = URL.canParse(homePage) && (way === 'file' || URL.canParse(endpoint));

  async function keep(): Promise<void> {
    if (way === 'file') {
      // What becomes of it is told under the buttons, where the dialog is out of the way.
      void statementsFile.make(() => callHost('exportStatements', { homePage, ...choice }));
      return;
    }
    sending.begin(await callHost('sendStatements', { homePage, endpoint, user, password, ...choice }));
    setPassword('');
  }

  return (
    <>
      <Action isWaiting={busy} onPress={() => setOpen(true)}>
        {say('tables.statements')}
      </Action>
      <FormDialog
        title={say('tables.statements')}
        isOpen={open}
        onOpenChange={setOpen}
        leave={say('tables.statements.leave')}
        keep={say(way === 'file' ? 'tables.statements.keep' : 'tables.statements.send')}
        ready={ready}
        onKeep={keep}
      >
        <Choice<Way>
          label={say('tables.statements.way')}
          value={way}
          options={[
            { value: 'file', label: say('tables.statements.way.file') },
            { value: 'store', label: say('tables.statements.way.store') },
          ]}
          onChange={setWay}
        />
        <AddressField
          label={say('tables.statements.home')}
          about={say('tables.statements.about')}
          value={homePage}
          onChange={setHomePage}
        />
        {way === 'store' && (
          <>
            <AddressField
              label={say('tables.statements.endpoint')}
              about={say('tables.statements.endpoint.about')}
              value={endpoint}
              onChange={setEndpoint}
            />
            <TextField className="entry" value={user} onChange={setUser} maxLength={200} autoComplete="off">
              <Label>{say('tables.statements.user')}</Label>
              <Input className="price-input" />
            </TextField>
            <SecretField label={say('tables.statements.password')} value={password} known={false} onChange={setPassword} />
          </>
        )}
      </FormDialog>
      <FileJobLine fileJob={statementsFile} making={say('file-job.statements')} />
      {job && (
        <div className="sending" tabIndex={-1} data-job={job.state}>
          {job.state === 'running' && (
            <RunningJob label={say('tables.sending')} done={job.done} total={job.total} onStop={sending.stop} />
          )}
          <p role="status">
            {job.state === 'done' &&
              say('tables.sent', { sent: job.statements?.sent ?? 0, conflicting: job.statements?.conflicting ?? 0 })}
            {(job.state === 'failed' || job.state === 'stopped') && (
              <Told words={say('tables.not-sent', { reason: job.problem === null ? '–' : inEnglish(job.problem) })} />
            )}
          </p>
        </div>
      )}
    </>
  );
}

interface AddressFieldProps {
  label: string;
  about: string;
  value: string;
  onChange(value: string): void;
}

function AddressField({ label, about, value, onChange }: AddressFieldProps) {
  return (
    <TextField className="entry" type="url" value={value} onChange={onChange} maxLength={200}>
      <Label>{label}</Label>
      <Input className="price-input" />
      <Text slot="description" className="soft small">
        {about}
      </Text>
    </TextField>
  );
}
