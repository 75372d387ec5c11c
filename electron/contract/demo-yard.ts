import { z } from 'zod';
import { count, shortText, timeIso } from './values.ts';

/**
 * 'missing': this installation has none, or nothing is kept here; 'absent': it can be unpacked; 'there': unpacked;
 * 'open': it is what the page gets now, in place of the yard's own records.
 */
export const DEMO_YARD_STATES = ['missing', 'absent', 'there', 'open'] as const;

/** What is in the demo yard, as its file says in its first line. */
export const demoYardFactsSchema = z.strictObject({
  coreVersion: shortText,
  apprentices: count,
  groups: count,
  assessors: count,
  instructors: count,
  runs: count,
  weeks: count,
  firstDay: timeIso,
  lastDay: timeIso,
  /** Its people are invented, and so are these: how to sign in as each that has a passphrase. */
  entries: z.array(z.strictObject({ name: shortText, passphrase: shortText })).max(20),
});
export type DemoYardFacts = z.infer<typeof demoYardFactsSchema>;

export const demoYardSchema = z.strictObject({
  state: z.enum(DEMO_YARD_STATES),
  /** Null where the state is 'missing'. */
  facts: demoYardFactsSchema.nullable(),
});
export type DemoYard = z.infer<typeof demoYardSchema>;

const nothing = z.strictObject({});

/**
 * A yard of invented people to look round in. Its records are in a folder of their own; opening it puts them in the place of the
 * real ones for as long as the program runs or until it is left, signs everybody out, and changes nothing in the real ones.
 */
export const DEMO_YARD_VERBS = {
  getDemoYard: { request: nothing, reply: demoYardSchema },
  /** Unpacks it where it is not there yet. */
  openDemoYard: { request: nothing, reply: demoYardSchema },
  leaveDemoYard: { request: nothing, reply: demoYardSchema },
  /** Leaves it where it is open, and deletes its folder with all that was done in it. */
  removeDemoYard: { request: nothing, reply: demoYardSchema },
} as const;
