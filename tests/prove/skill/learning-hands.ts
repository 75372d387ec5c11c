import { fitPracticeCurve, type PracticeCurve, practiceScore } from '../../../renderer/register/practice-curve.ts';
import { type Drill, windowOfDrill } from '../../../sim-core/index.ts';
import { keptScore } from './kept-runs.ts';
import { SKILLS, type SkillVector } from './skill-vector.ts';
import { skilledScript } from './skilled-script.ts';

/** Practice of one learner: skill at the first run, the level it heads for, and by which law and how fast what lacks goes. */
interface Learner {
  law: PracticeCurve['law'];
  begins: number;
  level: number;
  rate: number;
}

const RUNS = 30;

/** Fast and slow, by both laws, from near-beginners to hands that keep within every tolerance, whose marks can hardly rise. */
const LEARNERS: readonly Learner[] = [
  { law: 'exponential', begins: 0.1, level: 0.65, rate: 0.08 },
  { law: 'exponential', begins: 0.2, level: 0.6, rate: 0.2 },
  { law: 'power', begins: 0.1, level: 0.7, rate: 0.5 },
  { law: 'power', begins: 0.2, level: 0.65, rate: 1 },
];

/** Score is read off against skill at these, each on so many days: the drill's own scale, which no fit is shown. */
const SKILL_STEPS = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7];
const DAYS = 5;

/** Figures of a curve that are fitted: so many of a learner's runs go into them, and not into telling chance from the curve. */
const FIGURES = 3;

export interface RecoveredCurve {
  law: PracticeCurve['law'];
  rate: number;
  fitted: PracticeCurve;
  /** Root mean square, over the runs, of the fitted curve's distance from the score that the learner's skill is worth, marks. */
  offMarks: number;
  /** What that may be by chance alone: three standard errors of a curve of three figures, beside the error of the scale itself. */
  allowedMarks: number;
}

/** Learners practise a drill, all their skills coming along together; the page's own fit is shown the scores and nothing else. */
export function recoverCurves(drill: Drill): RecoveredCurve[] {
  const scale = SKILL_STEPS.map((skill) => mean(Array.from({ length: DAYS }, (_, day) => scoreOf(drill, skill, 900_000 + day))));
  return LEARNERS.map((learner, number) => {
    const skills = Array.from({ length: RUNS }, (_, at) => skillAt(learner, at + 1));
    const scores = skills.map((skill, at) => scoreOf(drill, skill, 700_000 + number * 1000 + at));
    const fitted = fitPracticeCurve(scores);
    if (!fitted) throw new Error('Too few runs for a curve.');
    const worth = skills.map((skill) => between(scale, skill));
    const offMarks = rootMeanSquare(worth.map((score, at) => practiceScore(fitted, at + 1) - score));
    const scatter = rootMeanSquare(worth.map((score, at) => scores[at] - score));
    const allowedMarks = 3 * scatter * Math.sqrt(FIGURES / RUNS + 1 / DAYS);
    return { law: learner.law, rate: learner.rate, fitted, offMarks, allowedMarks };
  });
}

function skillAt({ law, begins, level, rate }: Learner, run: number): number {
  return practiceScore({ law, level, lacking: level - begins, rate }, run);
}

/** The scale's score at a skill, in straight lines between its steps. */
function between(scale: readonly number[], skill: number): number {
  const at = Math.min(scale.length - 2, Math.max(0, Math.floor((skill - SKILL_STEPS[0]) / 0.1)));
  return scale[at] + ((skill - SKILL_STEPS[at]) / (SKILL_STEPS[at + 1] - SKILL_STEPS[at])) * (scale[at + 1] - scale[at]);
}

/** Score of one day of a hand that has so much of every skill, and that goes too slow, high, far left and stays too long. */
function scoreOf(drill: Drill, skill: number, seed: number): number {
  const vector = Object.fromEntries(SKILLS.map((one) => [one, skill])) as SkillVector;
  const bents = Object.fromEntries(SKILLS.map((one) => [one, one === 'speed' ? -1 : 1])) as Record<
    (typeof SKILLS)[number],
    1 | -1
  >;
  const script = skilledScript({ number: 0, skill: vector, bents }, drill, windowOfDrill(drill), { counter: seed });
  return keptScore({ drill, script, seed, persists: true }).score;
}

function rootMeanSquare(values: readonly number[]): number {
  return Math.sqrt(mean(values.map((value) => value * value)));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
