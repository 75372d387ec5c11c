import { CORE_VERSION, decodeRunFile, resimulate } from '../../sim-core/index.ts';
import { CommandError } from './command-error.ts';
import { told } from './drill-file.ts';
import { readTextFile } from './read-file.ts';
import { scoreText } from './score-words.ts';
import type { Verb } from './verb.ts';

export const scoreVerb: Verb = {
  name: 'score',
  usage: 'score RUN [--json]',
  summary: 'Cuts a recorded run again from its inputs and gives its marks.',
  flags: {},
  words: ['RUN'],
  run(flags) {
    const [file] = flags.words;
    const read = decodeRunFile(readTextFile(file));
    if (!read.ok) throw new CommandError(told(file, read.problems));
    const { run } = read;
    if (run.coreVersion !== CORE_VERSION) {
      const kept = run.score ? ` It was given ${run.score.score} then.` : '';
      throw new CommandError(
        `${file} was made by core ${run.coreVersion} and cannot be marked again by core ${CORE_VERSION}.${kept}`,
      );
    }
    const again = resimulate(run.drill, run.seed, run.log, run);
    return {
      json: { ...again.score, digest: again.finalDigest },
      text: `${run.hand.name} on ${run.drill.title}\n${scoreText(again.score)}`,
    };
  },
};
