import { CAUTION_IDS, MEASURE_IDS } from '../../sim-core/index.ts';
import { hashFromRoute } from '../app/route.ts';
import { CautionList } from '../bench/CautionList.tsx';
import { KeysTable } from '../bench/KeysTable.tsx';
import { YardPage } from '../register/YardPage.tsx';
import { say } from '../text/say.ts';
import { useTitle } from '../ui/use-title.ts';
import { FadingHelp } from './FadingHelp.tsx';
import { BENCH_TOPICS, type HelpTopic, isMeasure, topicName } from './help-topics.ts';
import { MeasureHelp } from './MeasureHelp.tsx';

/** All of the help: a list of topics, and one of them. */
export function HelpRoom({ topic }: { topic: HelpTopic }) {
  useTitle(say(topicName(topic)));
  return (
    <YardPage>
      <main id="content" tabIndex={-1} className="home-main help-room">
        <nav aria-label={say('help.title')}>
          <h2>{say('help.measures')}</h2>
          <TopicList topics={MEASURE_IDS} here={topic} />
          <h2>{say('help.more')}</h2>
          <TopicList topics={BENCH_TOPICS} here={topic} />
        </nav>
        <article>
          <h1 className="kerf-rule">{say(topicName(topic))}</h1>
          {isMeasure(topic) && <MeasureHelp id={topic} level={2} />}
          {topic === 'fading' && <FadingHelp />}
          {topic === 'keys' && (
            <>
              {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls, and has to by key as well */}
              <section className="help-wide" aria-label={say('keys.title')} tabIndex={0}>
                <KeysTable />
              </section>
              <p className="soft small">{say('keys.tab')}</p>
              <p>{say('replay.keys')}</p>
            </>
          )}
          {topic === 'cautions' && (
            <>
              <p>{say('help.cautions.lead')}</p>
              <CautionList cautions={CAUTION_IDS} />
              <p>
                <strong>{say('start.supervised')}</strong> {say('caution.always')}
              </p>
            </>
          )}
        </article>
      </main>
    </YardPage>
  );
}

function TopicList({ topics, here }: { topics: readonly HelpTopic[]; here: HelpTopic }) {
  return (
    <ul>
      {topics.map((topic) => (
        <li key={topic}>
          <a href={hashFromRoute({ at: 'help', topic })} aria-current={topic === here ? 'page' : undefined}>
            {say(topicName(topic))}
          </a>
        </li>
      ))}
    </ul>
  );
}
