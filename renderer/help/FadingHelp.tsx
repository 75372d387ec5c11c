import { say } from '../text/say.ts';

const FINDINGS = ['guidance', 'half', 'again', 'summary', 'order', 'caution'] as const;

/** Why the cues go away, and the published findings behind it. */
export function FadingHelp() {
  return (
    <>
      <p>{say('help.fading.lead')}</p>
      <p>{say('help.fading.guess')}</p>
      <ul className="caution-list">
        {FINDINGS.map((id) => (
          <li key={id}>
            {say(`help.fading.${id}.say`)}{' '}
            <span className="soft small">{say('caution.source', { source: say(`help.fading.${id}.source`) })}</span>
          </li>
        ))}
      </ul>
    </>
  );
}
