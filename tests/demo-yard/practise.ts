import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type RunUsed, SPEED_GUESSES, type SpeedGuess } from '../../electron/contract.ts';
import { runUsed } from '../../renderer/bench/run-used.ts';
import { asksSpeedGuess, speedTruth } from '../../renderer/bench/speed-guess.ts';
import {
  type CompletedRun,
  type Drill,
  encodeHandLog,
  parseDrill,
  runHand,
  type Score,
  type StoredTrace,
  setupFromDrill,
  storeTrace,
  TICK_HZ,
  windowOfDrill,
} from '../../sim-core/index.ts';
import { freshWear } from '../../sim-core/physics/wear.ts';
import type { Apprentice } from './apprentices.ts';
import { type Figures, figures } from './figures.ts';
import { practiceHand } from './practice-hand.ts';
import { dayMs, GROUPS, WEEKS } from './weeks.ts';

const SCENARIOS = path.join(import.meta.dirname, '..', '..', 'scenarios');
/** Share of what is lacking that a run of any other technique takes away, beside the one's own. */
const CARRIES_OVER = 0.25;
/** Between two runs the plate is changed and the torch cools, s. */
const BREAK_S = 240;
/** Share of those asked how fast it was who press on. */
const GOES_ON_WITHOUT = 0.1;

/** The whole of a finished run, as it is handed over. */
export interface CutRun extends Pick<CompletedRun, 'seed' | 'choices' | 'diagnosis' | 'digests' | 'finalDigest' | 'score'> {
  tickCount: number;
  inputs: Uint8Array;
  trace: StoredTrace;
}

/** A run as somebody cut it, and when. */
export interface PractisedRun {
  apprentice: number;
  /** Index into WEEKS of the assignment that it is an attempt of. */
  week: number;
  drillId: string;
  beganAtMs: number;
  endedAtMs: number;
  /** Given up before it was finished. */
  isAbandoned: boolean;
  run: CutRun;
  used: RunUsed;
  /** What was said of the speed before the marks; null where nobody was asked or answered. */
  guess: SpeedGuess | null;
}

interface Tried {
  tries: number;
  passed: boolean;
}

/** Eight weeks of one apprentice: what is unpassed is cut again, now and then something old; skill grows with every run. */
export function practise(who: Apprentice, done: (run: PractisedRun) => void): void {
  const by = figures(40_000 + who.number * 101);
  const runsOf = new Map<string, number>();
  const tried = new Map<string, Tried>();
  let runs = 0;
  for (let week = who.from; week <= who.until; week++) {
    const group = GROUPS[who.group] ?? GROUPS[0];
    const budget = Math.floor(who.practises + by.next());
    for (let nth = 0; nth < budget; nth++) {
      const next = nextDrill(week, who.from, tried, by);
      if (!next) break;
      const drill = readDrill(next.drillId);
      const own = runsOf.get(drill.technique) ?? 0;
      const skill = 1 - (1 - who.begins) * (1 - who.learns) ** (own + CARRIES_OVER * (runs - own));
      const day = group.days[nth < budget / 2 ? 0 : 1];
      const beganAtMs =
        dayMs(week, day) + group.hour * 3_600_000 + (who.number * 7 + nth * 11) * 60_000 + by.whole(0, BREAK_S) * 1000;
      const isTest = WEEKS[next.week]?.isAssessment === true;
      const cut = cutRun(drill, who, Math.min(0.97, skill), by, isTest);
      const { score } = cut.run;
      done({ apprentice: who.number, ...next, beganAtMs, endedAtMs: beganAtMs + (cut.run.tickCount / TICK_HZ) * 1000, ...cut });
      if (cut.isAbandoned) continue;
      const before = tried.get(next.drillId) ?? { tries: 0, passed: false };
      tried.set(next.drillId, { tries: before.tries + 1, passed: before.passed || score.passed });
      runsOf.set(drill.technique, own + 1);
      runs += 1;
    }
  }
}

/** Share of the runs that go back to what was asked in earlier weeks, as mixed practice does. */
const GOES_BACK = 0.34;

/** What is asked this week and not passed, tried least first; in between what is left from before, or something old. */
function nextDrill(
  week: number,
  from: number,
  tried: ReadonlyMap<string, Tried>,
  by: Figures,
): { week: number; drillId: string } | null {
  const asked = WEEKS.slice(from - 1, week).flatMap(({ drillIds, isAssessment, attempts }, index) =>
    drillIds.map((drillId) => ({ week: from - 1 + index, drillId, isTest: isAssessment === true, attempts: attempts ?? 3 })),
  );
  const triesOf = (drillId: string) => tried.get(drillId)?.tries ?? 0;
  const open = asked.filter((one) => !tried.get(one.drillId)?.passed && !(one.isTest && triesOf(one.drillId) >= one.attempts));
  const now = open.filter((one) => one.week === week - 1).sort((a, b) => triesOf(a.drillId) - triesOf(b.drillId))[0];
  const old = asked.filter((one) => one.week < week - 1 && !one.isTest);
  const left = old.filter((one) => open.includes(one)).sort((a, b) => triesOf(b.drillId) - triesOf(a.drillId))[0];
  const back = left && by.happens(0.6) ? left : old[by.whole(0, Math.max(0, old.length - 1))];
  const chosen = back && (now === undefined || by.happens(GOES_BACK)) ? back : now;
  return chosen ? { week: chosen.week, drillId: chosen.drillId } : null;
}

function cutRun(
  drill: Drill,
  who: Apprentice,
  skill: number,
  by: Figures,
  isTest: boolean,
): Pick<PractisedRun, 'run' | 'used' | 'guess' | 'isAbandoned'> {
  const seed = by.whole(0, 2 ** 31);
  // A test is cut to its end: its attempts are counted.
  const isAbandoned = by.happens(0.07 * (1 - skill)) && !isTest;
  const { script, answers } = practiceHand(drill, windowOfDrill(drill), skill, who.bent, figures(seed));
  const completed = runHand(drill, script, seed, answers);
  const before = setupFromDrill(drill, seed, completed.choices).fit?.wear ?? freshWear();
  const used = runUsed(completed.simulation, before);
  const { choices, diagnosis, digests, finalDigest, score, log, samples } = completed;
  const run: CutRun = {
    ...{ seed, choices, diagnosis, digests, finalDigest, score },
    tickCount: log.length,
    inputs: encodeHandLog(log),
    trace: storeTrace(samples),
  };
  const guess = isTest ? null : ownGuess(drill, score, skill, figures(seed + 1));
  return { run, used, guess, isAbandoned };
}

/** Who reads the sparks knows how fast it was; who does not yet guesses, and some go on without. */
function ownGuess(drill: Drill, score: Score, skill: number, by: Figures): SpeedGuess | null {
  const truth = asksSpeedGuess(drill) ? speedTruth(score) : null;
  if (truth === null || by.happens(GOES_ON_WITHOUT)) return null;
  return by.happens(skill) ? truth : (SPEED_GUESSES[by.whole(0, SPEED_GUESSES.length - 1)] ?? truth);
}

const known = new Map<string, Drill>();

function readDrill(drillId: string): Drill {
  const before = known.get(drillId);
  if (before) return before;
  const text = readFileSync(path.join(SCENARIOS, `${drillId}.json`), 'utf8');
  const read = parseDrill(text);
  if (!read.ok) throw new Error(`The drill ${drillId} cannot be read.`);
  known.set(drillId, read.value);
  return read.value;
}
