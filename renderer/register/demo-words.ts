import type { DemoYardFacts } from '../../electron/contract.ts';
import { say } from '../text/say.ts';

/** What is in the demo yard, in two sentences. */
export function factsWords({ apprentices, groups, instructors, assessors, runs, weeks }: DemoYardFacts): string {
  return say('demo.facts', { apprentices, groups, instructors, assessors, runs, weeks });
}
