import { useEffect, useRef } from 'react';
import { RIG_RULE_SOURCES, type RigFinding, type RigFindingId } from '../../sim-core/index.ts';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Told } from '../ui/Told.tsx';
import { SHEETS, type SheetName } from './Sheet.tsx';

/** Sheet on which a finding that stops the run is put right. */
function sheetOf(id: RigFindingId): SheetName {
  if (id === 'trigger-guard-open') return 'source';
  return /shade|eye|gloves|jacket|hearing|respirator/.test(id) ? 'person' : 'place';
}

/** Why no arc may be struck: each reason in a sentence, with where the rule stands, by sheet. Takes the focus when it comes. */
export function StopNotice({ findings }: { findings: readonly RigFinding[] }) {
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (findings.length > 0) title.current?.focus();
  }, [findings]);
  if (findings.length === 0) return null;
  return (
    <section className="rig-stop" role="alert" aria-labelledby="rig-stop-title">
      <h2 id="rig-stop-title" ref={title} tabIndex={-1}>
        {say('rig.stop.title')}
      </h2>
      {SHEETS.map((sheet) => {
        const here = findings.filter((finding) => sheetOf(finding.id) === sheet);
        if (here.length === 0) return null;
        return (
          <div key={sheet} className="rig-stop-sheet">
            <ul>
              {here.map((finding) => (
                <Reason key={finding.id} finding={finding} />
              ))}
            </ul>
            <Action kind="quiet" onPress={() => document.getElementById(`rig-${sheet}`)?.focus()}>
              {say('rig.stop.go', { sheet: say(`rig.sheet.${sheet}`) })}
            </Action>
          </div>
        );
      })}
      <p>
        <strong>{say('caution.always')}</strong>
      </p>
    </section>
  );
}

function Reason({ finding: { id, sourceId } }: { finding: RigFinding }) {
  const { title, basis } = RIG_RULE_SOURCES[sourceId];
  return (
    <li data-finding={id}>
      {say(`finding.${id}`)}{' '}
      <span className="small">
        <Told words={say('caution.source', { source: inEnglish(title) })} />
        {basis === 'memory' ? ` ${say('rig.stop.from-memory')}` : ''}
      </span>
    </li>
  );
}
