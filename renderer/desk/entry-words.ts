import type { LedgerEntry } from '../../electron/contract.ts';
import { momentText } from '../register/dates.ts';
import { measureName } from '../register/measure-name.ts';
import { personText } from '../register/person-text.ts';
import { isTextKey, say } from '../text/say.ts';
import { scoreText } from '../ui/units.ts';
import { type EntryBody, listIn, momentIn, numberIn, textIn } from './entry-body.ts';

/** Names that the yard has for what entries speak of by id; null where it has none. */
export interface YardNames {
  person(id: string): string | null;
  drill(id: string): string | null;
  assignment(id: string): string | null;
  set(id: string): string | null;
}

const UNKNOWN = '–';
/** Longest piece of somebody's own words in a sentence; all of it stands in the entry. */
const QUOTED_CHARS = 90;

function quoted(text: string | null): string {
  if (text === null) return UNKNOWN;
  // Cut behind a word, where there is one.
  return text.length > QUOTED_CHARS ? `${text.slice(0, QUOTED_CHARS).replace(/\s+\S*$/, '')}…` : text;
}

function drillName(body: EntryBody, names: YardNames): string {
  const id = textIn(body, 'drillId');
  return id === null ? UNKNOWN : (names.drill(id) ?? id);
}

function decisionName(body: EntryBody): string {
  const key = `verdict.${textIn(body, 'decision')}`;
  return isTextKey(key) ? say(key) : UNKNOWN;
}

function markText(mark: number | null): string {
  return mark === null ? UNKNOWN : scoreText(mark);
}

const COUNTED = {
  people: ['record.one-person', 'record.people'],
  drills: ['record.one-drill', 'record.drills'],
  runs: ['record.one-run', 'record.runs'],
} as const;

function counted(what: keyof typeof COUNTED, count: number | null): string {
  const [one, many] = COUNTED[what];
  return count === 1 ? say(one) : say(many, { count: count ?? UNKNOWN });
}

/** The kind of an entry in words. */
export function kindName(kind: string): string {
  const key = `record.kind.${kind}`;
  return isTextKey(key) ? say(key) : kind;
}

const countIn = (body: EntryBody, name: string): number | null => listIn(body, name)?.length ?? null;

function importWords({ subject, body }: LedgerEntry, names: YardNames): string {
  if (subject === 'roster') return say('record.import.roster', { people: counted('people', countIn(body, 'changes')) });
  if (subject === 'drill-pack') return say('record.import.pack', { drills: counted('drills', countIn(body, 'drills')) });
  return say('record.import.run', { drill: drillName(body, names) });
}

function exportWords({ body }: LedgerEntry): string {
  const to = textIn(body, 'to');
  const key = `record.export.${textIn(body, 'what')}${to === null ? '' : '.sent'}`;
  if (!isTextKey(key)) return kindName('export');
  return say(key, {
    to: to ?? UNKNOWN,
    file: textIn(body, 'fileName') ?? UNKNOWN,
    runs: counted('runs', numberIn(body, 'runs')),
    count: numberIn(body, 'statements') ?? UNKNOWN,
  });
}

/** A sentence for what an entry of some kinds says, by what changed; what is not known is told by its kind alone. */
function changeWords({ kind, subject, body }: LedgerEntry, names: YardNames): string {
  const key = `record.${kind}.${textIn(body, 'change')}`;
  if (!isTextKey(key)) return kindName(kind);
  const name =
    textIn(body, 'name') ??
    textIn(body, 'title') ??
    names.assignment(subject) ??
    names.set(subject) ??
    names.person(subject) ??
    UNKNOWN;
  return say(key, {
    // Of a group or a set it is somebody's own words.
    name: kind === 'role-change' ? personText(name) : name,
    people: counted('people', countIn(body, 'members') ?? countIn(body, 'personIds')),
    drills: counted('drills', countIn(body, 'drillIds')),
    runs: counted('runs', countIn(body, 'runIds')),
  });
}

/** What was done, as a sentence without its doer. Any entry has one, even of a kind or a body that this page does not know. */
export function entryWords(entry: LedgerEntry, names: YardNames): string {
  const { body } = entry;
  // Of a changed record it may be one that is not in the list.
  const kind: string = entry.kind;
  switch (kind) {
    case 'run-submitted': {
      const score = numberIn(body, 'score');
      const drill = drillName(body, names);
      return score === null
        ? say('record.run-submitted.plain', { drill })
        : say('record.run-submitted', { drill, score: scoreText(score) });
    }
    case 'verdict':
      return say(textIn(body, 'replaces') === null ? 'record.verdict' : 'record.verdict.again', {
        decision: decisionName(body),
        reasons: quoted(textIn(body, 'reasons')),
      });
    case 'overrule':
      return say('record.overrule', {
        measure: measureName(textIn(body, 'measureId') ?? UNKNOWN),
        own: markText(numberIn(body, 'own')),
        mark: markText(numberIn(body, 'mark')),
        reason: quoted(textIn(body, 'reason')),
      });
    case 'note':
      return say('record.note', { text: quoted(textIn(body, 'text')) });
    case 'correction':
      return say('record.correction', { seq: numberIn(body, 'corrects') ?? UNKNOWN, reason: quoted(textIn(body, 'reason')) });
    case 'drill-saved': {
      const drill = textIn(body, 'title') ?? names.drill(entry.subject) ?? entry.subject;
      return say(textIn(body, 'replaces') === null ? 'record.drill-saved' : 'record.drill-saved.again', { drill });
    }
    case 'import':
      return importWords(entry, names);
    case 'export':
      return exportWords(entry);
    case 'unreadable':
      return say('record.unreadable');
    case 'restore': {
      const made = momentIn(body, 'madeAt');
      return say('record.restore', {
        made: made === null ? UNKNOWN : momentText(made),
        people: counted('people', numberIn(body, 'people')),
        runs: counted('runs', numberIn(body, 'runs')),
        person: personText(textIn(body, 'askedBy') ?? UNKNOWN),
      });
    }
    default:
      return changeWords(entry, names);
  }
}
