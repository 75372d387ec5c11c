import type { MeasureInput } from './score-context.ts';

/**
 * How much the place along the line shakes to and fro, mm: root mean square of its distance from its own mean over a span of
 * ticks about it, over all ticks that count and have that span about them in one go. 0 where none has.
 */
export function shakeMm({ trace }: MeasureInput, halfSpanTicks: number, counts: (index: number) => boolean): number {
  const { sMm, ticks } = trace;
  let squares = 0;
  let judged = 0;
  for (let from = 0; from < ticks; from++) {
    if (!counts(from)) continue;
    let to = from;
    while (to + 1 < ticks && counts(to + 1)) to++;
    let sum = 0;
    for (let i = from; i < from + 2 * halfSpanTicks && i <= to; i++) sum += sMm[i];
    for (let i = from + halfSpanTicks; i + halfSpanTicks <= to; i++) {
      sum += sMm[i + halfSpanTicks];
      const away = sMm[i] - sum / (2 * halfSpanTicks + 1);
      sum -= sMm[i - halfSpanTicks];
      squares += away * away;
      judged++;
    }
    from = to;
  }
  return judged > 0 ? Math.sqrt(squares / judged) : 0;
}
