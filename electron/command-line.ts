import process from 'node:process';
import { checkVerb } from './command-line/check.ts';
import { CommandError, UsageError } from './command-line/command-error.ts';
import { couponVerb } from './command-line/coupon.ts';
import { drillsVerb } from './command-line/drills.ts';
import { gougeVerb } from './command-line/gouge.ts';
import { limitsVerb } from './command-line/limits.ts';
import { pierceVerb } from './command-line/pierce.ts';
import { readFlags } from './command-line/read-flags.ts';
import { scoreVerb } from './command-line/score.ts';
import { simulateVerb } from './command-line/simulate.ts';
import type { Verb } from './command-line/verb.ts';
import { verifyVerb } from './command-line/verify.ts';
import { windowVerb } from './command-line/window.ts';

/**
 * The same core without a window: `npm run -s kerfhand -- VERB ...`. With --json exactly one JSON document goes to stdout;
 * errors are one sentence on stderr. Exit codes: 0 good; 1 it could not be done; 2 the command was put wrongly;
 * verify has its own: 3 different, 4 other-core, 5 damaged.
 */
const VERBS: readonly Verb[] = [
  couponVerb,
  windowVerb,
  limitsVerb,
  pierceVerb,
  gougeVerb,
  simulateVerb,
  scoreVerb,
  verifyVerb,
  checkVerb,
  drillsVerb,
];

const CANNOT = 1;
const PUT_WRONGLY = 2;

function usage(verbs: readonly Verb[]): string {
  return [
    'Usage: npm run -s kerfhand -- VERB ... [--json]',
    ...verbs.map((verb) => `  ${verb.usage}\n      ${verb.summary}`),
    'Lengths mm, speeds mm/s, angles deg, currents A, energies J, times s. DRILL is a file or the id of a shipped drill.',
    '',
  ].join('\n');
}

function run(args: readonly string[]): number {
  const [name, ...rest] = args;
  if (name === '--help' || name === '-h' || name === 'help') {
    process.stdout.write(usage(VERBS));
    return 0;
  }
  const verb = VERBS.find((candidate) => candidate.name === name);
  if (!verb) {
    const complaint = name === undefined ? 'A verb is missing.' : `There is no verb "${name.slice(0, 40)}".`;
    process.stderr.write(`${complaint}\n${usage(VERBS)}`);
    return PUT_WRONGLY;
  }
  if (rest.includes('--help') || rest.includes('-h')) {
    process.stdout.write(usage([verb]));
    return 0;
  }
  try {
    const flags = readFlags(verb, rest);
    const outcome = verb.run(flags);
    if (flags.json) process.stdout.write(`${JSON.stringify(outcome.json)}\n`);
    else if (outcome.text !== '') process.stdout.write(`${outcome.text}\n`);
    if (outcome.complaint) process.stderr.write(`${outcome.complaint}\n`);
    return outcome.exitCode ?? 0;
  } catch (error) {
    if (error instanceof UsageError) {
      process.stderr.write(`${error.message}\n${usage([verb])}`);
      return PUT_WRONGLY;
    }
    // The core says what is wrong with a figure as a RangeError, one sentence.
    if (error instanceof CommandError || error instanceof RangeError) {
      process.stderr.write(`${error.message}\n`);
      return CANNOT;
    }
    throw error;
  }
}

process.exitCode = run(process.argv.slice(2));
