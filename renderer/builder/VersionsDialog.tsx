import { useCallback, useEffect, useState } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import type { DrillVersion, RunSummary } from '../../electron/contract.ts';
import { errorWords } from '../app/error-words.ts';
import { callHost } from '../app/host-client.ts';
import { goTo } from '../app/route.ts';
import { loadRuns } from '../app/yard-store.ts';
import { drillFromText } from '../drills/read-drill.ts';
import { dateAndTimeText } from '../register/dates.ts';
import { personText } from '../register/person-text.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { Told } from '../ui/Told.tsx';
import { scoreText } from '../ui/units.ts';
import { replaceWith } from './builder-store.ts';
import { demonstrationOf } from './use-core-answers.ts';

const NONE = 'none';
const RUNS_OFFERED = 50;

function handWords({ personName, hand }: RunSummary): string {
  if (personName !== null) return personText(personName);
  return say(hand.kind === 'script' ? 'builder.demonstration.hand' : 'home.who.nobody');
}

export interface VersionsDialogProps {
  drillId: string;
  isOpen: boolean;
  onOpenChange(open: boolean): void;
}

/** Every version of the drill, how often it was cut, and the run that shows how. */
export function VersionsDialog({ drillId, isOpen, onOpenChange }: VersionsDialogProps) {
  return (
    <ModalOverlay className="veil" isDismissable isOpen={isOpen} onOpenChange={onOpenChange}>
      <Modal>
        <Dialog className="dialog versions">
          {({ close }) => (
            <>
              <Heading slot="title" level={2} className="kerf-rule">
                {say('builder.versions')}
              </Heading>
              <p className="soft">{say('builder.versions.about')}</p>
              <VersionList drillId={drillId} close={close} />
              <Action kind="main" onPress={close}>
                {say('builder.versions.close')}
              </Action>
            </>
          )}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function VersionList({ drillId, close }: { drillId: string; close(): void }) {
  const [versions, setVersions] = useState<DrillVersion[]>([]);
  const [runs, setRuns] = useState<RunSummary[]>([]);
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);

  const load = useCallback(async () => {
    const [kept, good] = await Promise.all([
      callHost('listDrillVersions', { id: drillId }),
      callHost('listRuns', { drillId, states: ['finished'], passed: true, limit: RUNS_OFFERED }),
    ]);
    setVersions(kept.versions);
    setRuns(good.runs);
  }, [drillId]);

  /** Does something with the records; what goes wrong stands in the dialog, which hides the rest of the page. */
  const attempt = useCallback(
    async (what: () => Promise<unknown>) => {
      setBusy(true);
      setTrouble(null);
      try {
        await what();
        await load();
      } catch (error) {
        setTrouble(errorWords(error));
      } finally {
        setBusy(false);
      }
    },
    [load],
  );

  useEffect(() => {
    void attempt(async () => undefined);
  }, [attempt]);

  async function show(version: DrillVersion): Promise<void> {
    const { text } = await callHost('getDrill', { hash: version.hash });
    const runText = await demonstrationOf(drillFromText(text), text);
    const { run } = await callHost('importRun', { text: runText });
    await callHost('keepDemonstration', { hash: version.hash, runId: run.id });
    await loadRuns();
  }

  async function takeOut(version: DrillVersion): Promise<void> {
    const { text } = await callHost('getDrill', { hash: version.hash });
    replaceWith(drillFromText(text));
    close();
  }

  return (
    <>
      <div role="status">
        {busy && <p className="soft">{say('builder.versions.busy')}</p>}
        {trouble !== null && (
          <p className="entry-wrong">
            <Told words={trouble} />
          </p>
        )}
      </div>
      <ul className="version-list">
        {versions.map((version) => (
          <li key={version.hash} data-version={version.number} data-demonstration={version.demonstrationRunId ?? ''}>
            <h3>
              {say('builder.version', { number: version.number })}
              {version.current && <span className="version-current">{say('builder.version.current')}</span>}
            </h3>
            <p className="soft">
              {version.savedAt !== null && dateAndTimeText(version.savedAt)}
              {' · '}
              {version.runs === 1 ? say('builder.version.one-run') : say('builder.version.runs', { runs: version.runs })}
            </p>
            <div className="entry-row entry-wrap">
              {!version.current && (
                <Action isWaiting={busy} onPress={() => void attempt(() => takeOut(version))}>
                  {say('builder.version.take')}
                </Action>
              )}
              {version.demonstrationRunId === null ? (
                <Action isWaiting={busy} onPress={() => void attempt(() => show(version))}>
                  {say('builder.demonstration.make')}
                </Action>
              ) : (
                <Action onPress={() => goTo({ at: 'review', runId: version.demonstrationRunId as string })}>
                  {say('builder.demonstration.watch')}
                </Action>
              )}
              <Pick
                label={say('builder.demonstration')}
                value={version.demonstrationRunId ?? NONE}
                options={[
                  { value: NONE, label: say('builder.demonstration.none') },
                  ...runs
                    .filter((run) => run.drillHash === version.hash)
                    .map((run) => ({
                      value: run.id,
                      label: say('builder.demonstration.run', {
                        who: handWords(run),
                        when: dateAndTimeText(run.beganAt),
                        score: scoreText(run.score ?? 0),
                      }),
                    })),
                ]}
                onChange={(id) =>
                  void attempt(() => callHost('keepDemonstration', { hash: version.hash, runId: id === NONE ? null : id }))
                }
              />
            </div>
          </li>
        ))}
      </ul>
    </>
  );
}
