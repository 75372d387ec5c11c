import { useState } from 'react';
import { callHost } from '../app/host-client.ts';
import { goTo } from '../app/route.ts';
import type { ReviewedRun } from '../review/fresh-run.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { FocusedStatus } from '../ui/FocusedStatus.tsx';
import { TrustSign } from './TrustSign.tsx';
import type { Trust } from './use-trust.ts';
import { VerdictForm } from './VerdictForm.tsx';
import { dropDraft } from './verdict-draft.ts';

/** A judgement for moderation: nothing of anybody else's is shown, and nothing is signed. */
export function BlindPanel({ run, trust, setId }: { run: ReviewedRun; trust: Trust; setId: string }) {
  const [done, setDone] = useState<{ judged: number; runs: number } | null>(null);
  const draftId = `${setId}/${run.id}`;
  return (
    <div className="verdict">
      <TrustSign trust={trust} />
      <h2>{say('blind.title')}</h2>
      <p className="soft small">{say('blind.about')}</p>
      {done ? (
        <FocusedStatus>{say('blind.given', { judged: done.judged, runs: done.runs })}</FocusedStatus>
      ) : (
        <VerdictForm
          runId={draftId}
          score={run.score}
          passMark={run.drill.rubric.passMark}
          trust={trust.state}
          signer={null}
          action={say('blind.give')}
          onSign={async ({ decision, reasons, overruled }) => {
            const counts = await callHost('judgeBlind', { setId, runId: run.id, decision, reasons, overruled: [...overruled] });
            dropDraft(draftId);
            setDone(counts);
          }}
        />
      )}
      <Action onPress={() => goTo({ at: 'moderation', setId })}>{say('blind.back')}</Action>
    </div>
  );
}
