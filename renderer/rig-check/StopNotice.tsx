import { useEffect, useRef } from 'react';
import { RIG_RULE_SOURCES, type RigFinding, type RigFindingId } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import type { SheetName } from './Sheet.tsx';

/** Sheet on which a finding that stops the run is put right. */
function sheetOf(id: RigFindingId): SheetName {
  if (id === 'trigger-guard-open') return 'source';
  const onPerson = /shade|eye|gloves|jacket|hearing|respirator/;
  return onPerson.test(id) ? 'person' : 'place';
}

/** Why no arc may be struck: each reason in a sentence, with where the rule stands. Takes the focus when it comes. */
export function StopNotice({ findings }: { findings: readonly RigFinding[] }) {
  const box = useRef<HTMLElement>(null);
  useEffect(() => {
    if (findings.length > 0) box.current?.focus();
  }, [findings]);
  if (findings.length === 0) return null;
  return (
    <section className="rig-stop" ref={box} tabIndex={-1} role="alert" aria-labelledby="rig-stop-title">
      <h2 id="rig-stop-title">{say('rig.stop.title')}</h2>
      <ul>
        {findings.map(({ id, sourceId }) => {
          const { title, basis } = RIG_RULE_SOURCES[sourceId];
          const sheet = sheetOf(id);
          return (
            <li key={id} data-finding={id}>
              <p>
                {say(`finding.${id}`)}{' '}
                <span className="soft small">
                  {say('caution.source', { source: title })}
                  {basis === 'memory' ? ` ${say('rig.stop.from-memory')}` : ''}
                </span>
              </p>
              <Action kind="quiet" onPress={() => document.getElementById(`rig-${sheet}`)?.focus()}>
                {say('rig.stop.go', { sheet: say(`rig.sheet.${sheet}`) })}
              </Action>
            </li>
          );
        })}
      </ul>
      <p>
        <strong>{say('caution.always')}</strong>
      </p>
    </section>
  );
}
