import { MEASURE_IDS, type MeasureId } from '../../sim-core/index.ts';
import type { TextKey } from '../text/en.ts';

export const BENCH_TOPICS = ['fading', 'keys', 'cautions'] as const;
export type HelpTopic = MeasureId | (typeof BENCH_TOPICS)[number];

export const FIRST_TOPIC: HelpTopic = 'severance';

export function isMeasure(topic: string): topic is MeasureId {
  return (MEASURE_IDS as readonly string[]).includes(topic);
}

export function isHelpTopic(topic: string): topic is HelpTopic {
  return isMeasure(topic) || (BENCH_TOPICS as readonly string[]).includes(topic);
}

/** What the list of the help calls a topic. */
export function topicName(topic: HelpTopic): TextKey {
  return isMeasure(topic) ? `measure.${topic}` : `help.${topic}`;
}
