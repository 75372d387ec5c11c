import type { HandSettings } from '../../electron/contract.ts';
import type { Drill } from '../../sim-core/index.ts';
import { controlWords } from '../input/control-names.ts';
import type { HandDevice } from '../input/hand-controller.ts';
import type { TextKey } from '../text/en.ts';
import { isTextKey, say } from '../text/say.ts';
import { figure, quantity, type UnitSystem } from '../ui/units.ts';
import type { GuideStep } from './guidance.ts';
import { strikeHeightMm } from './start-guidance.ts';

export type PlateEdge = 'left' | 'right' | 'near' | 'far';

/** The edge of the plate on which a path begins; null where it begins inside. */
export function startEdge(drill: Drill): PlateEdge | null {
  const { xMm, yMm } = drill.path.start;
  const { lengthMm, widthMm } = drill.plate;
  const distances: [PlateEdge, number][] = [
    ['left', Math.abs(xMm)],
    ['right', Math.abs(lengthMm - xMm)],
    ['near', Math.abs(yMm)],
    ['far', Math.abs(widthMm - yMm)],
  ];
  const [edge, distance] = distances.reduce((best, next) => (next[1] < best[1] ? next : best));
  return distance <= 1 ? edge : null;
}

const HELP: Partial<Record<GuideStep, TextKey>> = {
  approach: 'guide.help.move',
  lower: 'guide.help.height',
  raise: 'guide.help.height',
  'lower-cutting': 'guide.help.height',
  'raise-cutting': 'guide.help.height',
  touch: 'guide.help.height',
  'lower-pierce': 'guide.help.height',
  'raise-pierce': 'guide.help.height',
  'come-down': 'guide.help.height',
  'lean-over': 'guide.help.lean-over',
  'lean-less': 'guide.help.lean-over',
  'set-bevel': 'guide.help.lean-over',
  'push-lean': 'guide.help.lean-over',
  'set-lean': 'guide.help.lean-over',
  roll: 'guide.help.lean',
  upright: 'guide.help.lean',
  'cross-gap': 'guide.help.hold',
  strike: 'guide.help.trigger',
  pilot: 'guide.help.hold',
  'wait-through': 'guide.help.hold',
  move: 'guide.help.steady',
  done: 'guide.help.end',
};

/** Steps that tell what has happened, not how to go on: they are told in an attempt without cues too. */
const PLAIN_FACTS: ReadonlySet<GuideStep> = new Set(['pull-again', 'arc-out', 'next-pass', 'done']);

export function isPlainFact(step: GuideStep): boolean {
  return PLAIN_FACTS.has(step);
}

/** How far the handle is to lean, and to which side. */
function leanWords({ intended }: Drill, units: UnitSystem): Record<string, string> {
  const lean = intended.travelAngleDeg;
  const [least, most] = lean === null ? [0, 0] : [Math.abs(lean.low), Math.abs(lean.high)].toSorted((a, b) => a - b);
  return {
    bevel: quantity(Math.abs(intended.bevelDeg), 'deg', units),
    side: say(intended.bevelDeg > 0 ? 'side.left' : 'side.right'),
    lean: `${figure(least, 'deg', units).value}–${quantity(most, 'deg', units)}`,
  };
}

/**
 * The sentence for a step of the guide, and which movement of the device in hand carries it out. Before any moved the torch, or where
 * two share the work, all of them are named.
 */
export function guideSentence(
  step: GuideStep,
  drill: Drill,
  units: UnitSystem,
  hand: HandSettings,
  /** `paced`: a mark goes ahead along the line. */
  { paced = false, device = null }: { paced?: boolean; device?: HandDevice | null } = {},
): { sentence: string; help: string } {
  const { low, high } = drill.tolerances.standOffMm;
  const strike = strikeHeightMm(drill);
  const edge = startEdge(drill);
  const values = {
    low: figure(low, 'mm', units).value,
    high: quantity(high, 'mm', units),
    pierceLow: figure(strike.low, 'mm', units).value,
    pierceHigh: quantity(strike.high, 'mm', units),
    ...leanWords(drill, units),
    ...(edge ? { edge: say(`edge.${edge}`) } : {}),
  };
  const key: TextKey = step === 'approach' && edge === null ? 'guide.approach-plate' : `guide.${step}`;
  const help = paced && (step === 'move' || step === 'faster') ? 'guide.help.pace' : (HELP[step] ?? 'guide.help.none');
  const own = `${help}.${hand.leansWith === 'none' ? device : null}`;
  const words = say(isTextKey(own) ? own : help, controlWords(hand));
  return { sentence: say(key, values), help: words.charAt(0).toUpperCase() + words.slice(1) };
}
