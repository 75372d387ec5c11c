import type { Evidence, FigureUnit, MeasureScore, Score, ScoreReason } from '../../sim-core/index.ts';
import type { TextKey } from '../text/en.ts';
import { isTextKey, say } from '../text/say.ts';
import { band, markText, type QuantityUnit, quantity, scoreText, type UnitSystem } from '../ui/units.ts';

/** The core's unit names are the page's, but a share is printed per cent; some faults have no figure. */
function unitOf(unit: FigureUnit): QuantityUnit {
  return unit === 'none' ? '' : unit;
}

export function evidenceFigure(evidence: Pick<Evidence, 'value' | 'unit'>, units: UnitSystem): string {
  return evidence.unit === 'none' ? '' : quantity(evidence.value, unitOf(evidence.unit), units);
}

export function bandWords(measure: Pick<MeasureScore, 'band'>, units: UnitSystem): string | null {
  if (measure.band === null) return null;
  return band(measure.band.low, measure.band.high, unitOf(measure.band.unit), units);
}

/** What went wrong, in the words of the rig check where it found it. */
export function faultWords({ fault, finding }: Pick<Evidence, 'fault' | 'finding'>): string {
  const found = `finding.${finding}`;
  return isTextKey(found) ? say(found) : say(`fault.${fault}`);
}

/** The one thing to change, in a sentence with the figures of the stretch that shows it; null for a run without fault. */
export function adviceWords(score: Score, units: UnitSystem): string | null {
  const advice = score.firstThingToChange;
  if (advice === null) return null;
  const measure = score.measures.find((one) => one.id === advice.measureId);
  const evidence = advice.evidenceIndex === null ? undefined : measure?.evidence[advice.evidenceIndex];
  const key: TextKey = `advice.${advice.key}`;
  return say(key, {
    value: evidence ? evidenceFigure(evidence, units) : '–',
    band: (measure && bandWords(measure, units)) ?? '–',
  });
}

export function reasonWords(reason: ScoreReason, units: UnitSystem): string {
  switch (reason.kind) {
    case 'not-severed':
      return say('review.why.not-severed', { length: quantity(reason.uncutMm, 'mm', units) });
    case 'not-grooved':
      return say('review.why.not-grooved', { length: quantity(reason.missingMm, 'mm', units) });
    case 'cut-aside':
      return say('review.why.cut-aside', { length: quantity(reason.asideMm, 'mm', units) });
    case 'below-pass-mark':
      return say('review.why.below-pass-mark', { score: scoreText(reason.score), passMark: reason.passMark });
    case 'measure-below':
      return say('review.why.measure-below', {
        measure: measureName(reason.measureId),
        mark: markText(reason.mark, reason.mustReach),
        mustReach: reason.mustReach,
      });
    case 'far-off':
      return say('review.why.far-off', {
        measure: measureName(reason.measureId),
        share: quantity(reason.share, 'share', units),
      });
  }
}

/** A record of another core may hold a measure this page has no word for; then its id stands. */
export function measureName(id: string): string {
  const key = `measure.${id}`;
  return isTextKey(key) ? say(key) : id;
}
