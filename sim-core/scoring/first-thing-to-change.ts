import { type MeasureId, OUTCOME_MEASURES } from '../drill/measure-ids.ts';
import type { Advice, Evidence, FaultId, MeasureScore } from './score.ts';

/** What can lie behind an outcome that went wrong, and how long before it shows, ticks. Outcomes are never told before their cause. */
const CAUSES: Partial<Record<FaultId, readonly FaultId[]>> = {
  'severance.uncut': [
    'rig-check.wrong',
    'edge-dwell.left-early',
    'pierce.left-blind',
    'end-of-cut.tab-left',
    'travel-speed.too-fast',
    'stand-off.too-high',
    'squareness.leaning',
    'travel-speed.too-slow',
  ],
  'severance.not-reached': [
    'rig-check.wrong',
    'gap-crossing.arc-lost',
    'edge-dwell.left-late',
    'pierce.left-late',
    'steadiness.halted',
    'travel-speed.too-slow',
    'end-of-cut.stopped-short',
    'pierce.not-through',
    'pierce.too-high',
    'stand-off.too-high',
  ],
  'gap-crossing.arc-lost': ['rig-check.wrong', 'travel-speed.too-slow'],
  'gap-crossing.slow': ['rig-check.wrong'],
  'pierce.blowback': ['rig-check.wrong', 'pierce.too-upright', 'pierce.leaning', 'pierce.too-low', 'pierce.too-high'],
  'pierce.not-through': ['rig-check.wrong', 'pierce.too-high'],
  'torch-parts.worn': [
    'rig-check.wrong',
    'pierce.too-upright',
    'pierce.too-low',
    'pierce.blowback',
    'stand-off.too-low',
    'gap-crossing.struck-often',
    'edge-dwell.left-late',
    'pierce.left-late',
  ],
  'groove-depth.shallow': [
    'rig-check.wrong',
    'line-following.off-line',
    'travel-speed.too-fast',
    'squareness.leaning',
    'stand-off.too-high',
  ],
  'groove-depth.deep': ['travel-speed.too-slow', 'squareness.leaning', 'steadiness.halted'],
  'groove-depth.wide': ['stand-off.too-high', 'travel-speed.too-slow'],
  'groove-depth.narrow': ['travel-speed.too-fast', 'squareness.leaning'],
  'groove-evenness.uneven': ['line-following.off-line', 'steadiness.halted', 'steadiness.uneven'],
  'part-size.cut-away': ['rig-check.wrong', 'squareness.leaning', 'line-following.off-line', 'travel-speed.too-slow'],
  'part-size.left-on': ['rig-check.wrong', 'squareness.leaning', 'line-following.off-line', 'travel-speed.too-fast'],
  'cut-quality.slanted': ['squareness.leaning', 'rig-check.wrong', 'travel-speed.too-fast', 'stand-off.too-high'],
  'cut-quality.dross': ['travel-speed.too-slow', 'travel-speed.too-fast'],
  'cut-quality.rough': ['steadiness.uneven', 'steadiness.halted', 'line-following.off-line'],
  'spark-angle.too-flat': ['travel-speed.too-fast', 'stand-off.too-high', 'squareness.leaning', 'steadiness.uneven'],
  'spark-angle.too-steep': ['travel-speed.too-slow', 'squareness.leaning', 'steadiness.halted', 'steadiness.uneven'],
  'spark-angle.none-below': ['edge-dwell.left-early', 'travel-speed.too-fast', 'stand-off.too-high', 'squareness.leaning'],
  'end-of-cut.tab-left': ['travel-speed.too-fast'],
  'travel-speed.too-slow': ['steadiness.halted'],
};

/** Where a guide leads the torch, its place is not the hand's: off the line is then an effect, and the size says of what. */
const GUIDED_CAUSES: Partial<Record<FaultId, readonly FaultId[]>> = {
  ...CAUSES,
  'line-following.off-line': ['rig-check.wrong', 'part-size.cut-away', 'part-size.left-on'],
  'part-size.cut-away': ['rig-check.wrong', 'squareness.leaning', 'travel-speed.too-slow'],
  'part-size.left-on': ['rig-check.wrong', 'squareness.leaning', 'travel-speed.too-fast'],
};

/** An effect is looked for up to this long after its cause, ticks: half a second of front lag. */
const SHOWS_WITHIN_TICKS = 120;

/** An arc that went out shows as line or openings that it never reached, however long ago it went. */
const ARC_GONE: readonly FaultId[] = ['severance.not-reached', 'gap-crossing.arc-lost'];

/** A cause must have cost at least this share of what its effect cost to be named in its place. */
const LEAST_SHARE = 0.15;

interface Candidate {
  measure: MeasureScore;
  index: number;
  evidence: Evidence;
  /** Weighted marks lost. */
  cost: number;
}

/** Weighted marks that a fault must have cost to be worth a word. */
const LEAST_COST = 1;

/** Below this purpose, or this worth of handling (see rubric.ts), there is no cut to refine. */
const LEAST_PURPOSE = 0.25;
const LEAST_WORTH = 0.25;

/** What kind of run it is that advice is sought for. */
export interface RunCharacter {
  /** Share of the way gone with the arc on that served the line, as in PathTrace. */
  purpose: number;
  travelledShare: number;
  /** Handling worth, as in rubric.ts. */
  worth: number;
  /** A straight edge, template or circle guide leads the torch. */
  guided: boolean;
}

/**
 * The stretch that cost most, or, where it is the effect of something else in the run, that cause. Null for a run without
 * fault. A torch that was waved about is sent to its line, one that hardly cut to the cut itself, before anything finer.
 */
export function firstThingToChange(measures: readonly MeasureScore[], run: RunCharacter): Advice | null {
  const candidates: Candidate[] = [];
  for (const measure of measures) {
    for (const [index, evidence] of measure.evidence.entries()) {
      candidates.push({ measure, index, evidence, cost: evidence.lostMarks * measure.weight });
    }
  }
  if (run.travelledShare > 0 && run.purpose < LEAST_PURPOSE) {
    const line = candidates.find((candidate) => candidate.measure.id === 'line-following');
    return { measureId: 'line-following', evidenceIndex: line?.index ?? null, key: 'line-following.off-line' };
  }
  const outcome = candidates.filter((candidate) => OUTCOME_MEASURES.includes(candidate.measure.id));
  const top = dearest(groupByFault(run.worth < LEAST_WORTH && outcome.length > 0 ? outcome : candidates));
  if (!top) return withoutEvidence(measures);
  if (top.cost < LEAST_COST) return null;
  const named = causeOf(top, candidates, run.guided ? GUIDED_CAUSES : CAUSES) ?? top;
  return { measureId: named.measure.id, evidenceIndex: named.index, key: named.evidence.fault };
}

/** Many short stretches of one fault are one habit: the fault that cost most in all, shown at its dearest stretch. */
function groupByFault(candidates: readonly Candidate[]): Candidate[] {
  const totals = new Map<FaultId, Candidate>();
  for (const candidate of candidates) {
    const held = totals.get(candidate.evidence.fault);
    if (!held) totals.set(candidate.evidence.fault, { ...candidate });
    else held.cost += candidate.cost;
  }
  return [...totals.values()];
}

function dearest(candidates: readonly Candidate[]): Candidate | null {
  let top: Candidate | null = null;
  for (const candidate of candidates) if (!top || candidate.cost > top.cost) top = candidate;
  return top;
}

function causeOf(effect: Candidate, candidates: readonly Candidate[], table: typeof CAUSES): Candidate | null {
  const causes = table[effect.evidence.fault] ?? [];
  const before = candidates.filter(
    (candidate) =>
      causes.includes(candidate.evidence.fault) &&
      candidate.evidence.fromTick <= effect.evidence.toTick &&
      (ARC_GONE.includes(effect.evidence.fault) || candidate.evidence.toTick + SHOWS_WITHIN_TICKS >= effect.evidence.fromTick),
  );
  const cause = dearest(groupByFault(before));
  if (!cause || cause.cost < LEAST_SHARE * effect.cost) return null;
  return causeOf(cause, candidates, table) ?? cause;
}

/** Marks can be missing without a stretch to show, as for a torch that never reached the line. */
function withoutEvidence(measures: readonly MeasureScore[]): Advice | null {
  const lost = measures.filter((measure) => (100 - measure.mark) * measure.weight >= LEAST_COST);
  const worst = lost.find((measure) => OUTCOME_MEASURES.includes(measure.id)) ?? lost[0];
  if (!worst) return null;
  return { measureId: worst.id, evidenceIndex: null, key: WITHOUT_EVIDENCE[worst.id] };
}

/** What is said of a measure that has marks missing and no stretch to show. */
const WITHOUT_EVIDENCE: Record<MeasureId, FaultId> = {
  severance: 'severance.not-reached',
  'travel-speed': 'travel-speed.too-slow',
  'spark-angle': 'spark-angle.none-below',
  squareness: 'squareness.leaning',
  'stand-off': 'stand-off.too-high',
  'line-following': 'line-following.off-line',
  'edge-dwell': 'edge-dwell.left-early',
  steadiness: 'steadiness.uneven',
  'end-of-cut': 'end-of-cut.stopped-short',
  pierce: 'pierce.not-through',
  'groove-depth': 'groove-depth.shallow',
  'groove-evenness': 'groove-evenness.uneven',
  'part-size': 'part-size.left-on',
  'gap-crossing': 'gap-crossing.arc-lost',
  'cut-quality': 'cut-quality.slanted',
  'torch-parts': 'torch-parts.worn',
  'rig-check': 'rig-check.not-done',
  'fault-finding': 'fault-finding.not-named',
};
