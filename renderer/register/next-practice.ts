import type { DrillSummary, Reply } from '../../electron/contract.ts';

export type Due = Reply<'listDue'>['due'][number];
export type DueDrill = Due['drills'][number];
export type Progress = Reply<'getProgress'>;

const DAY_MS = 86_400_000;
/** A drill that was passed comes back after this pause: practice that is spaced is kept longer than practice in one go. */
export const REST_DAYS = 10;

export type NextReason =
  | { kind: 'due'; dueAt: string | null; overdue: boolean; order: Due['order'] }
  /** Tried and not passed, the nearest to a pass. */
  | { kind: 'close'; tries: number; score: number }
  | { kind: 'rest'; days: number }
  | { kind: 'new'; technique: string };

export interface NextPractice {
  drillId: string;
  title: string;
  technique: string;
  /** Null where it is not asked for by an assignment. */
  assignmentId: string | null;
  /** Attempts left; null = as often as wanted. */
  left: number | null;
  reason: NextReason;
}

export interface PracticeSoFar {
  due: readonly Due[];
  progress: Progress;
  /** In learning order. */
  drills: readonly DrillSummary[];
  nowMs: number;
}

interface Tried {
  drill: DrillSummary;
  tries: number;
  best: number;
  passed: boolean;
  lastMs: number;
}

/**
 * What to practise now, and why. What was asked for comes before everything, soonest due first, in the order the host gives;
 * then what is nearest to a pass; then what was passed and has rested; then the first drill of a technique not tried yet.
 */
export function nextPractice({ due, progress, drills, nowMs }: PracticeSoFar): NextPractice | null {
  return askedFor(due, nowMs) ?? ownChoice(progress, drills, nowMs);
}

/** Done is what an assessor found competent, or, where nobody decided, what is passed. */
export function isDone({ passed, decision }: DueDrill): boolean {
  return decision === null ? passed === true : decision === 'competent';
}

function askedFor(due: readonly Due[], nowMs: number): NextPractice | null {
  for (const one of due) {
    const drill = one.drills.find((candidate) => candidate.drillHash === one.nextDrillHash);
    // The host goes on naming a drill that is passed and may be cut again; it is asked for no more.
    if (!drill || isDone(drill)) continue;
    const overdue = one.dueAt !== null && Date.parse(one.dueAt) < nowMs;
    return {
      drillId: drill.drillId,
      title: drill.title,
      technique: drill.technique,
      assignmentId: one.assignmentId,
      left: drill.left,
      reason: { kind: 'due', dueAt: one.dueAt, overdue, order: one.order },
    };
  }
  return null;
}

function ownChoice(progress: Progress, drills: readonly DrillSummary[], nowMs: number): NextPractice | null {
  const tried = triedDrills(progress, drills);
  const choose = (drill: DrillSummary, reason: NextReason): NextPractice => ({
    drillId: drill.id,
    title: drill.title,
    technique: drill.technique,
    assignmentId: null,
    left: null,
    reason,
  });
  const close = tried.filter((one) => !one.passed).toSorted((a, b) => b.best - a.best)[0];
  if (close) return choose(close.drill, { kind: 'close', tries: close.tries, score: close.best });
  const rested = tried.toSorted((a, b) => a.lastMs - b.lastMs)[0];
  const days = rested ? Math.floor((nowMs - rested.lastMs) / DAY_MS) : 0;
  if (rested && days >= REST_DAYS) return choose(rested.drill, { kind: 'rest', days });
  const known = new Set(tried.map((one) => one.drill.technique));
  const fresh = drills.find((drill) => !known.has(drill.technique) && drill.technique !== 'assessment');
  return fresh ? choose(fresh, { kind: 'new', technique: fresh.technique }) : null;
}

function triedDrills(progress: Progress, drills: readonly DrillSummary[]): Tried[] {
  const runs = Map.groupBy(
    progress.techniques.flatMap((technique) => technique.runs),
    (run) => run.drillId,
  );
  return drills.flatMap((drill) => {
    const own = runs.get(drill.id);
    if (!own) return [];
    return {
      drill,
      tries: own.length,
      best: Math.max(...own.map((run) => run.score)),
      passed: own.some((run) => run.passed),
      lastMs: Math.max(...own.map((run) => Date.parse(run.at))),
    };
  });
}
