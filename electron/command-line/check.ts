import {
  checkFeasibility,
  decodeRunFile,
  type ParseProblem,
  parseDrill,
  parseHandScript,
  scanJson,
} from '../../sim-core/index.ts';
import { HostError } from '../host/host-error.ts';
import { readPack } from '../host/papers/drill-pack.ts';
import { rosterProblems } from '../host/papers/roster.ts';
import { readTextFile } from './read-file.ts';
import type { Verb } from './verb.ts';

export const checkVerb: Verb = {
  name: 'check',
  usage: 'check FILE [--json]',
  summary:
    'Checks a drill, hand script, run file, drill pack or roster (CSV) and names every problem with its place. Prints nothing when it is good.',
  flags: {},
  words: ['FILE'],
  run(flags) {
    const [file] = flags.words;
    const problems = problemsOf(file, readTextFile(file));
    if (problems.length === 0) return { json: { ok: true }, text: '' };
    const list = problems.map(({ path, sentence }) => `${file}: ${path}: ${sentence}`).join('\n');
    return { json: { ok: false, problems }, text: '', complaint: list, exitCode: 1 };
  },
};

/** Which kind of file it is, its own `format` says, or its name where it is a table; what is no known kind is told as such. */
function problemsOf(file: string, text: string): ParseProblem[] {
  if (/\.csv$/i.test(file))
    return orRefusal(() => rosterProblems(text).map(({ line, reason }) => ({ path: `line ${line}`, sentence: reason })));
  switch (formatOf(text)) {
    case 'kerfhand-drill': {
      const result = parseDrill(text);
      return result.ok ? checkFeasibility(result.value) : result.problems;
    }
    case 'kerfhand-hand': {
      const result = parseHandScript(text);
      return result.ok ? [] : result.problems;
    }
    case 'kerfhand-run': {
      const result = decodeRunFile(text);
      return result.ok ? [] : result.problems;
    }
    case 'kerfhand-pack':
      return orRefusal(() => packProblems(text));
    default: {
      const scan = scanJson(text);
      if (!scan.ok) return [scan.problem];
      const sentence =
        'This is neither a drill, nor a hand script, nor a run file, nor a drill pack: its format is not one of theirs.';
      return [{ path: '$.format', sentence }];
    }
  }
}

function packProblems(text: string): ParseProblem[] {
  return readPack(text).drills.flatMap((packed, index) => {
    const place = `$.drills[${index}]`;
    if (!packed.ok) return [{ path: place, sentence: `${packed.name}: ${packed.reason}` }];
    return checkFeasibility(packed.read.drill).map(({ path, sentence }) => ({
      path: path.replace('$', `${place}.drill`),
      sentence,
    }));
  });
}

/** A file that is refused as a whole has one problem. */
function orRefusal(read: () => ParseProblem[]): ParseProblem[] {
  try {
    return read();
  } catch (error) {
    if (error instanceof HostError) return [{ path: '$', sentence: error.message }];
    throw error;
  }
}

/** A run file is two JSON lines; the others are one document. */
function formatOf(text: string): string | null {
  for (const candidate of [text, text.slice(0, Math.max(0, text.indexOf('\n')))]) {
    const scan = scanJson(candidate);
    if (scan.ok && typeof scan.value === 'object' && scan.value !== null && 'format' in scan.value) {
      return typeof scan.value.format === 'string' ? scan.value.format : null;
    }
  }
  return null;
}
