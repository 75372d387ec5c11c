import { TextArea, TextField } from 'react-aria-components';
import type { Drill } from '../../sim-core/index.ts';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Told } from '../ui/Told.tsx';
import { dropWriting, letGo, useBuilder, write } from './builder-store.ts';
import { drillTextOf } from './drill-text-of.ts';

/** The drill as its file has it. What is written here is in the form as soon as it can be read. */
export function TextPane({ drill }: { drill: Drill }) {
  const writing = useBuilder((state) => state.writing);
  const broken = writing !== null && writing.problems.length > 0;
  return (
    <section className="builder-text" aria-label={say('builder.text')} data-readable={!broken}>
      <h2 id="text-title" className="builder-part">
        {say('builder.text')}
      </h2>
      <div id="text-about" role="status" className="text-about">
        {broken ? (
          <>
            <p className="entry-wrong">{say('builder.text.broken')}</p>
            <ul>
              {writing.problems.slice(0, 4).map((problem) => (
                <li key={problem.path + problem.sentence}>
                  <code>{problem.path}</code> <Told words={inEnglish(problem.sentence)} />
                </li>
              ))}
            </ul>
          </>
        ) : (
          <p className="soft small">{say('builder.text.about')}</p>
        )}
      </div>
      {broken && <Action onPress={dropWriting}>{say('builder.text.back')}</Action>}
      <TextField
        className="entry entry-text"
        value={writing?.text ?? drillTextOf(drill)}
        isInvalid={broken}
        onChange={write}
        onBlur={letGo}
        aria-labelledby="text-title"
        aria-describedby="text-about"
      >
        <TextArea className="entry-input text-area" spellCheck="false" wrap="off" />
      </TextField>
    </section>
  );
}
