import { createHash } from 'node:crypto';
import type { VerdictPayload } from './verdict.ts';

/** Version of the rules that the statements keep: xAPI 1.0.3, which stores of IEEE 9274.1.1 (xAPI 2.0) take as well. */
export const XAPI_VERSION = '1.0.3';

/** Verbs of the ADL vocabulary. */
const VERB_BASE = 'http://adlnet.gov/expapi/verbs/';
type VerbName = 'attempted' | 'completed' | 'passed' | 'failed';
/** Kind of activity in the ADL vocabulary that a marked drill is. */
const ACTIVITY_TYPE = 'http://adlnet.gov/expapi/activities/simulation';

/** RFC 9562, section 6.6: the namespace for names that are addresses. */
const URL_NAMESPACE = '6ba7b811-9dad-11d1-80b4-00c04fd430c8';

interface Agent {
  objectType: 'Agent';
  account: { homePage: string; name: string };
}

/** The part of the standard's statement that is used here; tests hold it to the standard's own rules. */
export interface XapiStatement {
  id: string;
  actor: Agent;
  verb: { id: string; display: Record<string, string> };
  object: {
    objectType: 'Activity';
    id: string;
    definition: { type: string; name: Record<string, string>; extensions: Record<string, unknown> };
  };
  result: {
    score?: { scaled: number; raw: number; min: number; max: number };
    success?: boolean;
    completion: boolean;
    duration: string;
    response?: string;
    extensions?: Record<string, unknown>;
  };
  context: {
    platform: string;
    language: string;
    instructor?: Agent;
    statement?: { objectType: 'StatementRef'; id: string };
    extensions: Record<string, unknown>;
  };
  timestamp: string;
}

/** Where statements come from: their ids and accounts begin with it. */
export interface XapiSource {
  /** Address that stands for the yard, such as https://yard.example; it need not answer. */
  homePage: string;
  /** Nothing that may change between two sendings: they would no longer be one record. */
  platform: string;
}

/** A closed run of a person. */
export interface RunForStatement {
  runId: string;
  finished: boolean;
  /** 'Apprentice 01'. */
  person: string;
  drillId: string;
  drillHash: string;
  drillTitle: string;
  technique: string;
  endedAt: string;
  durationS: number;
  coreVersion: string;
  score: number | null;
  passed: boolean | null;
  measures: readonly { id: string; mark: number }[];
  verdict: (Pick<VerdictPayload, 'decision' | 'assessor' | 'at' | 'reasons' | 'overruled'> & { scoreAfter: number }) | null;
}

/**
 * Statements of one run: that it was completed (or only attempted, where it broke off), and where an assessor decided, that it was
 * passed or failed, pointing at the first. Ids come from run and verdict, so that the same run sent twice is one record. A run that
 * fell silent may still go on and be finished: that it was attempted up to a moment is another record than that it was completed.
 * @throws RangeError where the home page is no http(s) address
 */
export function statementsOf(run: RunForStatement, source: XapiSource): XapiStatement[] {
  const home = homeOf(source.homePage);
  const term = (name: string) => `${home}/xapi/${name}`;
  const agent = (name: string): Agent => ({ objectType: 'Agent', account: { homePage: home, name } });
  const runIri = `${home}/runs/${run.runId}`;
  const shared = {
    actor: agent(run.person),
    object: {
      objectType: 'Activity' as const,
      id: `${home}/drills/${run.drillId}`,
      definition: {
        type: ACTIVITY_TYPE,
        name: { en: run.drillTitle },
        extensions: { [term('technique')]: run.technique },
      },
    },
  };
  const context = {
    platform: source.platform,
    language: 'en',
    extensions: { [term('run')]: run.runId, [term('drill-version')]: run.drillHash, [term('core-version')]: run.coreVersion },
  };
  const duration = durationText(run.durationS);
  const first: XapiStatement = {
    id: idOf(run.finished ? runIri : `${runIri}/attempted/${run.endedAt}`),
    ...shared,
    verb: verb(run.finished ? 'completed' : 'attempted'),
    result: {
      ...(run.score === null ? {} : { score: scoreOf(run.score) }),
      ...(run.passed === null ? {} : { success: run.passed }),
      completion: run.finished,
      duration,
      ...(run.measures.length === 0
        ? {}
        : { extensions: { [term('marks')]: Object.fromEntries(run.measures.map(({ id, mark }) => [id, mark])) } }),
    },
    context,
    timestamp: run.endedAt,
  };
  if (run.verdict === null) return [first];
  const { decision, assessor, at, reasons, overruled, scoreAfter } = run.verdict;
  const competent = decision === 'competent';
  return [
    first,
    {
      id: idOf(`${runIri}/verdicts/${at}/${assessor}`),
      ...shared,
      verb: verb(competent ? 'passed' : 'failed'),
      result: {
        score: scoreOf(scoreAfter),
        success: competent,
        completion: true,
        duration,
        response: reasons,
        extensions: { [term('overruled')]: overruled },
      },
      context: { ...context, instructor: agent(assessor), statement: { objectType: 'StatementRef', id: first.id } },
      timestamp: at,
    },
  ];
}

/** The text of a statements file: one JSON array, as a store takes and gives them, from the JSON of each. */
export function statementsText(statements: readonly string[]): string {
  return `[\n${statements.join(',\n')}\n]\n`;
}

/** @throws RangeError where it is no address that can stand for a yard */
export function mustBeHome(text: string): void {
  homeOf(text);
}

function homeOf(text: string): string {
  const url = URL.parse(text);
  if (!url || (url.protocol !== 'https:' && url.protocol !== 'http:') || url.username || url.password) {
    throw new RangeError('The address that stands for the yard must begin with https:// and hold no name or password.');
  }
  return `${url.origin}${url.pathname}`.replace(/\/+$/, '');
}

function verb(name: VerbName): XapiStatement['verb'] {
  return { id: VERB_BASE + name, display: { en: name } };
}

function scoreOf(score: number) {
  return { scaled: score / 100, raw: score, min: 0, max: 100 };
}

/** ISO 8601, to a hundredth of a second as the standard asks: 'PT83.25S'. */
function durationText(seconds: number): string {
  return `PT${Number(seconds.toFixed(2))}S`;
}

/** UUID of version 5 (RFC 9562, section 5.5): the same name gives the same id everywhere. */
function idOf(name: string): string {
  const hash = createHash('sha1')
    .update(Buffer.from(URL_NAMESPACE.replaceAll('-', ''), 'hex'))
    .update(name, 'utf8')
    .digest();
  const bytes = hash.subarray(0, 16);
  bytes[6] = (bytes[6] & 0x0f) | 0x50;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  return bytes.toString('hex').replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
}
