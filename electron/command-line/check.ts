import {
  checkFeasibility,
  decodeRunFile,
  type ParseProblem,
  parseDrill,
  parseHandScript,
  scanJson,
} from '../../sim-core/index.ts';
import { readTextFile } from './read-file.ts';
import type { Verb } from './verb.ts';

export const checkVerb: Verb = {
  name: 'check',
  usage: 'check FILE [--json]',
  summary: 'Checks a drill, hand script or run file and names every problem with its place. Prints nothing when it is good.',
  flags: {},
  words: ['FILE'],
  run(flags) {
    const [file] = flags.words;
    const problems = problemsOf(readTextFile(file));
    if (problems.length === 0) return { json: { ok: true }, text: '' };
    const list = problems.map(({ path, sentence }) => `${file}: ${path}: ${sentence}`).join('\n');
    return { json: { ok: false, problems }, text: '', complaint: list, exitCode: 1 };
  },
};

/** Which kind of file it is, its own `format` says; what is no known kind is told as such. */
function problemsOf(text: string): ParseProblem[] {
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
    default: {
      const scan = scanJson(text);
      if (!scan.ok) return [scan.problem];
      const sentence = 'This is neither a drill, nor a hand script, nor a run file: its format is not one of theirs.';
      return [{ path: '$.format', sentence }];
    }
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
