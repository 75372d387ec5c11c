import type { MeasureId } from './measure-ids.ts';
import type { ParseProblem } from './parse-problem.ts';
import type { Drill } from './schema.ts';

/** What a measure needs of a drill, that it may be marked at all. */
const NEEDS: Partial<Record<MeasureId, { met: (drill: Drill) => boolean; sentence: string }>> = {
  'edge-dwell': {
    met: ({ start, rig }) => start === 'edge' && rig.mode !== 'gouge' && rig.mode !== 'mark',
    sentence: 'A pause at the edge can be marked only where the cut starts at an edge.',
  },
  pierce: { met: ({ start }) => start !== 'edge', sentence: 'A pierce can be marked only where the drill starts with one.' },
  'groove-depth': {
    met: ({ intended }) => intended.grooveDepthMm !== null,
    sentence: 'The depth of a groove can be marked only where intended.grooveDepthMm says how deep it should be.',
  },
  'groove-evenness': {
    met: ({ intended }) => intended.grooveDepthMm !== null,
    sentence: 'The evenness of a groove can be marked only where intended.grooveDepthMm says how deep it should be.',
  },
  'gap-crossing': {
    met: ({ plate }) => plate.openings !== null,
    sentence: 'Crossing openings can be marked only where the plate has openings.',
  },
  'rig-check': {
    met: ({ rigCheck }) => rigCheck === 'by-trainee',
    sentence: 'The rig check can be marked only where the trainee does it.',
  },
  'fault-finding': {
    met: ({ faults }) => faults.length > 0,
    sentence: 'Finding a fault can be marked only where the drill has one.',
  },
};

/** What the rubric of a drill asks for that the drill does not hold, and what a groove or a mark lacks. */
export function rubricProblems(drill: Drill): ParseProblem[] {
  const problems: ParseProblem[] = [];
  for (const [index, { id }] of drill.rubric.measures.entries()) {
    const need = NEEDS[id];
    if (need && !need.met(drill)) problems.push({ path: `$.rubric.measures[${index}]`, sentence: need.sentence });
  }
  const { intended, rig } = drill;
  if ((rig.mode === 'gouge' || rig.mode === 'mark') && !(intended.speedMmPerS && intended.grooveDepthMm)) {
    const sentence = 'A groove or a mark has a speed and a depth of its own: intended must hold speedMmPerS and grooveDepthMm.';
    problems.push({ path: '$.intended', sentence });
  }
  return problems;
}
