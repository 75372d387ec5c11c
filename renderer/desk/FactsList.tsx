import type { BackupFacts } from '../../electron/contract.ts';
import { momentText } from '../register/dates.ts';
import { say } from '../text/say.ts';
import { bytesWords } from './bytes-words.ts';

/** What a backup says of itself. */
export function FactsList({ facts }: { facts: BackupFacts }) {
  const rows = [
    ['made', momentText(facts.madeAt)],
    ['people', String(facts.people)],
    ['runs', String(facts.runs)],
    ['version', facts.appVersion],
    ['size', bytesWords(facts.bytes)],
    ['sha256', facts.sha256.slice(0, 12)],
  ] as const;
  return (
    <dl className="desk-facts" data-sha256={facts.sha256}>
      {rows.map(([name, words]) => (
        <div key={name}>
          <dt>{say(`backup.facts.${name}`)}</dt>
          <dd className="figure">{words}</dd>
        </div>
      ))}
    </dl>
  );
}
