import { z } from 'zod';
import { PERSON_ROLES } from './person.ts';
import { handedOutSchema } from './run-record.ts';
import { count } from './values.ts';

const rosterText = z.string().max(4 * 1024 * 1024);
const line = z.int().min(1);
const rosterPersonSchema = z.strictObject({ role: z.enum(PERSON_ROLES), number: z.int().min(1), groups: z.array(z.string()) });
const counts = z.strictObject({ new: count, changed: count, unchanged: count, wrong: count });

/** What taking in a roster would do, row by row. */
export const rosterPreviewSchema = z.strictObject({
  rows: z.array(
    z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('new'), line, person: rosterPersonSchema }),
      z.strictObject({ kind: z.literal('unchanged'), line, person: rosterPersonSchema }),
      z.strictObject({ kind: z.literal('changed'), line, person: rosterPersonSchema, before: z.array(z.string()) }),
      z.strictObject({ kind: z.literal('wrong'), line, reason: z.string(), cells: z.record(z.string(), z.string()) }),
    ]),
  ),
  counts,
  newGroups: z.array(z.string()),
  /** People of the yard that the file does not name: they stay as they are. */
  notNamed: z.array(rosterPersonSchema),
  /** Columns of the file that are not looked at. */
  ignoredColumns: z.array(z.string()),
});

export const ROSTER_VERBS = {
  /** Writes nothing. */
  previewRoster: { request: z.strictObject({ text: rosterText }), reply: rosterPreviewSchema },
  /** Takes in what `previewRoster` told of as new and changed; rows that are wrong are left out. All of it or nothing. */
  importRoster: { request: z.strictObject({ text: rosterText }), reply: counts },
  exportRoster: { request: z.strictObject({}), reply: handedOutSchema },
} as const;
