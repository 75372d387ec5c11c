import { useCallback, useEffect, useState } from 'react';
import type { Person, Reply } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { goTo } from '../app/route.ts';
import { WorkAction } from '../app/WorkAction.tsx';
import { tellTrouble } from '../app/yard-store.ts';
import { personText } from '../register/person-text.ts';
import type { ReviewedRun } from '../review/fresh-run.ts';
import { offerFile } from '../review/offer-file.ts';
import type { ReportPicture } from '../review/report-pictures.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { FocusedStatus } from '../ui/FocusedStatus.tsx';
import { useUnits } from '../ui/use-units.ts';
import { GivenVerdict } from './GivenVerdict.tsx';
import { TrustSign } from './TrustSign.tsx';
import type { Trust } from './use-trust.ts';
import { VerdictForm } from './VerdictForm.tsx';
import { dropDraft } from './verdict-draft.ts';

export interface VerdictPanelProps {
  run: ReviewedRun;
  /** null for whoever does not judge. */
  trust: Trust | null;
  me: Person;
  /** The part and the map of its cut, for the report. */
  pictures(): Promise<ReportPicture[]>;
}

/** On to the oldest run that waits; to the queue where none is left. */
async function openNext(): Promise<void> {
  const { rows } = await callHost('listQueue', { state: 'waiting', limit: 1 });
  goTo(rows[0] ? { at: 'review', runId: rows[0].run.id } : { at: 'queue' });
}

/** Whether the record can be trusted, what was decided on it, and the way to decide. */
export function VerdictPanel({ run, trust, me, pictures }: VerdictPanelProps) {
  const [verdicts, setVerdicts] = useState<Reply<'listVerdicts'>['verdicts'] | null>(null);
  const [again, setAgain] = useState(false);
  const [signed, setSigned] = useState(false);
  const units = useUnits();
  const load = useCallback(
    () => callHost('listVerdicts', { runId: run.id }).then((reply) => setVerdicts(reply.verdicts)),
    [run.id],
  );
  useEffect(() => {
    load().catch(tellTrouble);
  }, [load]);
  const saveReport = async () =>
    offerFile(await callHost('exportRunReport', { runId: run.id, pictures: await pictures(), units }));

  const sign = trust && <TrustSign trust={trust} />;
  if (verdicts === null) return sign;
  const [latest, ...earlier] = verdicts;
  const handedIn = run.handedInAt != null;
  const judges = me.role === 'assessor' && handedIn && trust !== null;
  const staff = me.role !== 'apprentice';
  return (
    <div className="verdict">
      {sign}
      {!handedIn && !latest && <p className="soft">{say('verdict.not-handed-in')}</p>}
      {handedIn && !latest && me.role !== 'assessor' && <p className="soft">{say('verdict.waiting')}</p>}
      {signed && (
        <div className="verdict-signed">
          <FocusedStatus>{say('verdict.signed')}</FocusedStatus>
          <WorkAction kind="main" work={openNext}>
            {say('verdict.next')}
          </WorkAction>
        </div>
      )}
      {latest && <GivenVerdict given={latest} />}
      {(staff || latest) && (
        <WorkAction work={saveReport} meanwhile={say('report.making')}>
          {say('report.save')}
        </WorkAction>
      )}
      {staff && latest && (
        <div className="hand-out">
          <WorkAction work={() => callHost('exportVerdict', { runId: run.id }).then(offerFile)}>
            {say('verdict.export')}
          </WorkAction>
          <WorkAction work={() => callHost('exportPublicKey', { personId: latest.assessorId }).then(offerFile)}>
            {say('verdict.export-key')}
          </WorkAction>
        </div>
      )}
      {judges && latest && !again && (
        <div>
          <Action
            onPress={() => {
              setAgain(true);
              setSigned(false);
            }}
          >
            {say('verdict.again')}
          </Action>
          <p className="soft small">{say('verdict.again.about')}</p>
        </div>
      )}
      {judges && trust && (!latest || again) && (
        <VerdictForm
          runId={run.id}
          score={run.score}
          passMark={run.drill.rubric.passMark}
          trust={trust.state}
          signer={personText(me.name)}
          action={say('verdict.sign')}
          takesFocus={again}
          onSign={async ({ decision, reasons, overruled }, passphrase) => {
            await callHost('signVerdict', { runId: run.id, decision, reasons, overruled: [...overruled], passphrase });
            dropDraft(run.id);
            setAgain(false);
            setSigned(true);
            await load();
          }}
        />
      )}
      {earlier.length > 0 && (
        <section className="verdict-earlier">
          <h2>{say('verdict.earlier')}</h2>
          {earlier.map((given) => (
            <GivenVerdict key={given.id} given={given} />
          ))}
        </section>
      )}
      {staff && (
        <Action kind="quiet" onPress={() => goTo({ at: 'queue' })}>
          {say('verdict.queue')}
        </Action>
      )}
    </div>
  );
}
