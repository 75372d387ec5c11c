import type { Hand } from '../../electron/contract.ts';
import type { HandScale } from '../../sim-core/index.ts';
import { isAccelerated } from '../input/hand-scale.ts';
import { dateText } from '../register/dates.ts';
import { say } from '../text/say.ts';
import { percent } from './percent.ts';

/** One sentence on how far the hand of a run was the torch's: for whoever judges its speed. */
export function runHandWords(hand: Hand, scale: HandScale | null): string {
  if (hand.kind === 'script') return say('hand.run.script');
  const device = say(`device.${scale?.device ?? hand.kind}`);
  if (scale === null)
    return say(hand.kind === 'mouse' || hand.kind === 'pen' ? 'hand.run.not-measured' : 'hand.run.no-scale', { device });
  const date = dateText(scale.measuredAt);
  if (!scale.applied) return say('hand.run.not-applied', { date, device });
  if (isAccelerated(scale)) return say('hand.run.accelerated', { date, device, share: percent(scale.acceleration) });
  return say('hand.run.measured', { date, device, spread: percent(scale.spread) });
}
