import type { UnreadableVerdict, VerdictRecord } from '../../electron/contract.ts';
import { momentText } from '../register/dates.ts';
import { personText } from '../register/person-text.ts';
import { measureName } from '../review/score-words.ts';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import { Told } from '../ui/Told.tsx';
import { DecisionMark } from './DecisionMark.tsx';

/** A signed verdict, with both marks wherever one was overruled. */
export function GivenVerdict({ given }: { given: VerdictRecord | UnreadableVerdict }) {
  const by = <p className="small">{say('verdict.by', { person: personText(given.assessor), when: momentText(given.at) })}</p>;
  if (given.check === 'unreadable') {
    return (
      <article className="given" data-check={given.check}>
        <p className="entry-problem">
          {say('verdict.unreadable')}: <Told words={inEnglish(given.checkSentence)} />
        </p>
        {by}
      </article>
    );
  }
  return (
    <article className="given" data-given={given.decision} data-check={given.check}>
      <p className="given-decision">
        <DecisionMark decision={given.decision} />
      </p>
      <p className="given-reasons">{given.reasons}</p>
      {given.overruled.length > 0 && (
        <ul>
          {given.overruled.map(({ measureId, mark, reason }) => (
            <li key={measureId}>
              <strong>
                {say('verdict.overruled', {
                  measure: measureName(measureId),
                  mark: Math.round(mark),
                  was: Math.round(given.marks.find((one) => one.measureId === measureId)?.mark ?? 0),
                })}
              </strong>
              <p className="given-reasons small">{reason}</p>
            </li>
          ))}
        </ul>
      )}
      {given.check === 'fits' ? (
        <p className="small soft">{say('verdict.check.good')}</p>
      ) : (
        <p className="entry-problem">
          {say('verdict.check.bad')}: <Told words={inEnglish(given.checkSentence)} />
        </p>
      )}
      {by}
      <p className="small soft figure">{say('verdict.key', { key: given.keyId.slice(0, 16) })}</p>
    </article>
  );
}
