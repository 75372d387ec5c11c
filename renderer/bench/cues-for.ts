import type { Drill } from '../../sim-core/index.ts';

/** What is known of whoever is about to cut, from the host's standings; attempts before this one. */
export interface CueHistory {
  /** False where nobody is chosen: then the attempts are anybody's, and say nothing of who stands here. */
  ofOnePerson: boolean;
  /** Attempts at this drill, however they ended. */
  tries: number;
  /** This drill was passed at least once. */
  passed: boolean;
  /** Attempts at other drills of the same technique. */
  techniqueTries: number;
}

/** 'always': the first attempts; 'every-other': one with, one without; 'never': by the metal alone. */
export type CueStage = 'always' | 'every-other' | 'never';

export interface CuePlan {
  stage: CueStage;
  /** Why it is so far on. */
  why: 'first-attempts' | 'fading' | 'passed' | 'assessment';
  /** Whether this attempt is made with cues, and the next one. */
  now: boolean;
  next: boolean;
}

/**
 * With these an average of half of the first sixteen attempts has cues: four of four, four of eight, none of four. Fading to none
 * over a block with half of the attempts fed back is the schedule of Winstein and Schmidt (1990); the figures are ours.
 */
const FULL_TRIES = 4;
const FADED_TRIES = 12;
/** Practice at other drills of the technique counts by this share, and never for more than the attempts that have every cue. */
const TECHNIQUE_SHARE = 0.5;

function stageOf(level: 'full' | 'alternate', history: CueHistory): Pick<CuePlan, 'stage' | 'why'> {
  const first = level === 'full' ? 'always' : 'every-other';
  if (!history.ofOnePerson) return { stage: first, why: first === 'always' ? 'first-attempts' : 'fading' };
  const practised = history.tries + Math.min(FULL_TRIES, history.techniqueTries * TECHNIQUE_SHARE);
  // Whoever has not passed yet keeps every other one, however often it was tried.
  if (history.passed && practised >= FADED_TRIES) return { stage: 'never', why: 'passed' };
  if (level === 'full' && practised < FULL_TRIES) return { stage: 'always', why: 'first-attempts' };
  return { stage: 'every-other', why: 'fading' };
}

function planOf(drill: Pick<Drill, 'cueLevel' | 'technique'>, history: CueHistory): Omit<CuePlan, 'next'> {
  if (drill.cueLevel === 'none' || drill.technique === 'assessment') return { stage: 'never', why: 'assessment', now: false };
  const { stage, why } = stageOf(drill.cueLevel, history);
  return { stage, why, now: stage === 'always' || (stage === 'every-other' && history.tries % 2 === 0) };
}

/** Whether the attempt that is about to be made has cues, whether the one after it will, and why. Assessments never have any. */
export function cuesFor(drill: Pick<Drill, 'cueLevel' | 'technique'>, history: CueHistory): CuePlan {
  const plan = planOf(drill, history);
  return { ...plan, next: planOf(drill, { ...history, tries: history.tries + 1 }).now };
}
