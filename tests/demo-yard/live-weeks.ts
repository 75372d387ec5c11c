import type { DemoClock } from './demo-clock.ts';
import { type Figures, figures } from './figures.ts';
import { givenVerdict, type Handed, notedMoment, type Temper } from './judge.ts';
import { keepRun } from './keep-run.ts';
import type { PractisedRun } from './practise.ts';
import { DAY_MS, dayMs, WEEKS } from './weeks.ts';
import type { Someone, YardEvent } from './yard-day.ts';

/** In everyday verdicts, and the two assessors when they judge blind. */
const PLAIN: Temper = { strictFrom: 0, lenientFrom: 101, overrules: 0.22, by: 20 };
const LENIENT: Temper = { strictFrom: 0, lenientFrom: 84, overrules: 0.5, by: 25 };
const STRICT: Temper = { strictFrom: 97, lenientFrom: 101, overrules: 0.8, by: -45 };

const HOUR_MS = 3_600_000;

export interface Yard {
  clock: DemoClock;
  instructors: readonly Someone[];
  assessors: readonly { who: Someone; passphrase: string }[];
  /** By number. */
  apprentices: ReadonlyMap<number, Someone>;
  groupIds: readonly string[];
}

/** What an assessor has not come to by then waits in the queue. */
const DECIDED_UNTIL_MS = dayMs(8, 3);
const WAITS_FOR_VERDICT_MS = { least: 20 * HOUR_MS, most: 70 * HOUR_MS };

/** Everything that happens in eight weeks, as it is known before; what follows on it is planned when it happens. */
export function plannedWeeks(yard: Yard, runs: readonly PractisedRun[]): YardEvent[] {
  const events: YardEvent[] = [];
  const by = figures(777);
  const assignmentIds: string[] = [];
  const handed: Handed[] = [];
  for (const [index, week] of WEEKS.entries()) {
    events.push({
      atMs: dayMs(index + 1, 0) + 4 * HOUR_MS,
      async happen() {
        const by = yard.instructors[index % 2];
        const assignment = await by?.ask('assign', {
          title: week.title,
          drillIds: [...week.drillIds],
          groupIds: [...yard.groupIds],
          dueAt: week.undated ? null : new Date(dayMs(index + 2, 4) + 16 * HOUR_MS).toISOString(),
          attempts: week.attempts ?? null,
          cueLevel: week.isAssessment ? 'none' : (week.cueLevel ?? null),
          order: week.order ?? 'mixed',
        });
        assignmentIds[index] = assignment?.id ?? '';
      },
    });
  }
  for (const [index, practised] of runs.entries()) {
    events.push({
      atMs: practised.beganAtMs,
      async happen() {
        const who = yard.apprentices.get(practised.apprentice);
        if (!who) throw new Error(`There is no apprentice ${practised.apprentice}.`);
        const runId = await keepRun(who, yard.clock, practised, assignmentIds[practised.week] ?? '');
        const one = { practised, runId };
        if (practised.isAbandoned) return;
        if (by.happens(0.035)) events.push(noteOf(yard, one, by));
        if (!isHandedIn(practised, runs.slice(index + 1), handed, by)) return;
        await who.ask('submitRun', { runId });
        handed.push(one);
        const atMs = practised.endedAtMs + by.whole(WAITS_FOR_VERDICT_MS.least, WAITS_FOR_VERDICT_MS.most);
        if (atMs < DECIDED_UNTIL_MS) events.push(verdictOn(yard, one, atMs, handed.length, by));
      },
    });
  }
  events.push(...moderation(yard, handed));
  events.push({ atMs: dayMs(7, 4) + 17 * HOUR_MS, happen: () => correctOne(yard) });
  return events;
}

/** A test is handed in as soon as it is passed, or when it was the last try; other runs where the week asks for it. */
function isHandedIn(one: PractisedRun, later: readonly PractisedRun[], handed: readonly Handed[], by: Figures): boolean {
  const week = WEEKS[one.week];
  const same = (other: PractisedRun) => other.apprentice === one.apprentice && other.drillId === one.drillId;
  if (handed.some(({ practised }) => same(practised))) return false;
  const { passed } = one.run.score;
  if (week?.isAssessment) return passed || (!later.some(same) && by.happens(0.8));
  return week?.handsIn === true && passed && by.happens(0.5);
}

function noteOf(yard: Yard, one: Handed, by: Figures): YardEvent {
  const staff = [...yard.instructors, ...yard.assessors.map(({ who }) => who)];
  const author = staff[by.whole(0, staff.length - 1)];
  return {
    atMs: one.practised.endedAtMs + by.whole(2, 30) * HOUR_MS,
    async happen() {
      await author?.ask('addNote', { runId: one.runId, ...notedMoment(one) });
    },
  };
}

function verdictOn(yard: Yard, one: Handed, atMs: number, nth: number, by: Figures): YardEvent {
  const assessor = yard.assessors[nth % yard.assessors.length];
  return {
    atMs,
    async happen() {
      if (!assessor) return;
      await assessor.who.ask('signVerdict', {
        runId: one.runId,
        ...givenVerdict(one, PLAIN, by),
        passphrase: assessor.passphrase,
      });
    },
  };
}

/** One set that both are through with, and one that is still being judged. */
function moderation(yard: Yard, handed: readonly Handed[]): YardEvent[] {
  const [instructor] = yard.instructors;
  const [first, second] = yard.assessors.map(({ who }) => who);
  if (!instructor || !first || !second) return [];
  const set = (title: string, atMs: number, week: number, size: number, judged: readonly [number, number]): YardEvent => ({
    atMs,
    async happen() {
      const ofWeek = handed.filter(({ practised }) => practised.week === week);
      // Weak and strong ones in turn, so that there is something to agree on.
      const sorted = ofWeek.toSorted((a, b) => a.practised.run.score.score - b.practised.run.score.score);
      const step = Math.max(1, Math.floor(sorted.length / size));
      const runs = sorted.filter((_, index) => index % step === 0).slice(0, size);
      const made = await instructor.ask('makeModerationSet', {
        title,
        runIds: runs.map(({ runId }) => runId),
        firstId: first.id,
        secondId: second.id,
      });
      for (const [n, judge] of [first, second].entries()) {
        const by = figures(5000 + week * 10 + n);
        for (const one of runs.slice(0, judged[n])) {
          yard.clock.set(yard.clock.now() + by.whole(4, 11) * 60_000);
          const { decision, reasons, overruled } = givenVerdict(one, n === 0 ? LENIENT : STRICT, by);
          await judge.ask('judgeBlind', { setId: made.id, runId: one.runId, decision, reasons, overruled });
        }
      }
    },
  });
  return [
    set('Half-way test: do we judge alike?', dayMs(6, 4) + 18 * HOUR_MS, 3, 10, [10, 10]),
    set('Rig, guide and groove: a sample', dayMs(8, 4) + 18 * HOUR_MS, 5, 6, [4, 1]),
  ];
}

/** Somebody signed with a sentence that belonged to another run, and says so. */
async function correctOne(yard: Yard): Promise<void> {
  const [assessor] = yard.assessors;
  const reply = await assessor?.who.ask('listLedger', { kinds: ['verdict'], limit: 5 });
  const entry = reply?.entries.find(({ who }) => who === assessor?.who.id);
  if (!entry) return;
  const reason = 'The sentence about the start belongs to another run; the decision is right as it stands.';
  await assessor?.who.ask('correctEntry', { seq: entry.seq, reason });
}

export const LAST_DAY_MS = dayMs(8, 4) + DAY_MS;
