import { useCallback, useEffect, useRef, useState } from 'react';
import type { Reply } from '../../electron/contract.ts';
import { errorWords } from '../app/error-words.ts';
import { callHost } from '../app/host-client.ts';
import { useAttempt } from '../app/use-attempt.ts';
import { WorkAction } from '../app/WorkAction.tsx';
import { tellTrouble } from '../app/yard-store.ts';
import { personText } from '../register/person-text.ts';
import { SecretField } from '../register/SecretField.tsx';
import { useMe } from '../register/signed-in.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Problem } from '../ui/Problem.tsx';
import { RunningJob } from '../ui/RunningJob.tsx';
import { Told } from '../ui/Told.tsx';
import { useFocusHandedOn } from '../ui/use-focus-handed-on.ts';
import { forgetWaiting, useWaiting } from './bring-file.ts';
import { FactsList } from './FactsList.tsx';
import { FileChoice } from './FileChoice.tsx';
import { type UploadedBackup, uploadBackup } from './upload-backup.ts';

type Waiting = Reply<'getWaitingRestore'>['waiting'];
const KINDS_HERE = ['backup'] as const;

/** Restores a backup: it is looked into, confirmed with a passphrase, and waits for the next start. */
export function RestorePanel() {
  const [waits, setWaits] = useState<Waiting | undefined>(undefined);
  const again = useCallback(
    () =>
      callHost('getWaitingRestore', {})
        .then(({ waiting }) => setWaits(waiting))
        .catch(tellTrouble),
    [],
  );
  useEffect(() => {
    void again();
  }, [again]);
  return (
    <div className="desk-lines" tabIndex={-1}>
      {waits && <WaitingRestore waits={waits} onWithdrawn={again} />}
      {waits !== undefined && <ChooseBackup replaces={waits !== null} onAsked={again} />}
    </div>
  );
}

function WaitingRestore({ waits, onWithdrawn }: { waits: NonNullable<Waiting>; onWithdrawn(): Promise<void> }) {
  const part = useFocusHandedOn<HTMLDivElement>();
  return (
    <div className="notice desk-lines" data-restore="waits" ref={part}>
      <p role="status">
        <strong>{say('restore.waits')}</strong> {say('restore.waits.by', { person: personText(waits.askedBy) })}
      </p>
      <FactsList facts={waits.backup} />
      <WorkAction work={() => callHost('withdrawRestore', {}).then(onWithdrawn)}>{say('restore.withdraw')}</WorkAction>
    </div>
  );
}

/** How far the looking into a file has come. */
type Looking = { fileName: string; done: number; total: number };

function ChooseBackup({ replaces, onAsked }: { replaces: boolean; onAsked(): Promise<void> }) {
  const waiting = useWaiting(KINDS_HERE);
  const [looking, setLooking] = useState<Looking | null>(null);
  const [uploaded, setUploaded] = useState<UploadedBackup | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const stop = useRef<AbortController | null>(null);
  useEffect(() => {
    if (waiting === null) return;
    forgetWaiting();
    stop.current?.abort();
    const mine = new AbortController();
    stop.current = mine;
    const { name: fileName } = waiting.file;
    const ended = () => {
      if (stop.current === mine) setLooking(null);
    };
    setUploaded(null);
    setProblem(null);
    const onProgress = (done: number, total: number) => setLooking({ fileName, done, total });
    uploadBackup(waiting.file, { signal: mine.signal, onProgress }).then(
      (found) => {
        ended();
        setUploaded(found);
      },
      (error: unknown) => {
        ended();
        if (mine.signal.aborted) return;
        setProblem(say('restore.unread', { file: fileName, reason: errorWords(error) }));
      },
    );
  }, [waiting]);
  useEffect(() => () => stop.current?.abort(), []);
  return (
    <>
      <p>{say('restore.about')}</p>
      <FileChoice choose={say(uploaded === null ? 'restore.choose' : 'restore.choose-other')} about={say('restore.drop')} />
      {looking && (
        <RunningJob
          label={say('restore.looking', { file: looking.fileName })}
          done={looking.done}
          total={Math.max(1, looking.total)}
          onStop={() => stop.current?.abort()}
        />
      )}
      {problem !== null && (
        <p className="notice" role="alert">
          <Told words={problem} />
        </p>
      )}
      {uploaded && (
        <ConfirmRestore
          key={uploaded.uploadId}
          uploaded={uploaded}
          replaces={replaces}
          onLeave={() => setUploaded(null)}
          onAsked={async () => {
            setUploaded(null);
            await onAsked();
          }}
        />
      )}
    </>
  );
}

interface ConfirmRestoreProps {
  uploaded: UploadedBackup;
  /** Another one waits already, which this one would take the place of. */
  replaces: boolean;
  onLeave(): void;
  onAsked(): Promise<void>;
}

function ConfirmRestore({ uploaded, replaces, onLeave, onAsked }: ConfirmRestoreProps) {
  const me = useMe();
  const form = useFocusHandedOn<HTMLFormElement>();
  const [passphrase, setPassphrase] = useState('');
  const { busy, problem, begin } = useAttempt();
  const ask = () => callHost('restoreAtNextStart', { uploadId: uploaded.uploadId, passphrase }).then(onAsked);
  return (
    <form
      className="desk-lines confirm-restore"
      ref={form}
      data-restore="looked-into"
      onSubmit={(event) => {
        event.preventDefault();
        if (passphrase !== '') void begin(ask);
      }}
    >
      <h3>{say('restore.facts', { file: uploaded.fileName })}</h3>
      <FactsList facts={uploaded.facts} />
      <p>{say('restore.means')}</p>
      {replaces && <p>{say('restore.replaces')}</p>}
      <SecretField
        label={say('restore.passphrase', { person: personText(me?.name ?? '') })}
        value={passphrase}
        known
        onChange={setPassphrase}
      />
      <Problem words={problem} />
      <div className="row-actions">
        <Action onPress={onLeave}>{say('restore.leave')}</Action>
        <Action kind="main" type="submit" isDisabled={passphrase === ''} isWaiting={busy}>
          {busy ? say('app.wait') : say('restore.ask')}
        </Action>
      </div>
    </form>
  );
}
