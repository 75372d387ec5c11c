/**
 * Every call between the page and the host: one verb, one request schema, one reply schema.
 * This is the only file that the page and the host both import. It imports zod and types of sim-core, nothing else.
 *
 * How the page calls the host
 * - In the Electron shell the preload puts `window.kerfhand` in place: one function per verb (`KerfhandVerbs`), for example
 *   `await window.kerfhand.listRuns({ limit: 50 })`. It resolves to an `Answer` and never rejects for a reason of the host's.
 * - Behind the loopback address `window.kerfhand` is absent. The page sends `POST /call/<verb>` on its own origin with
 *   `content-type: application/json`, the request as JSON body, and reads the same `Answer` as JSON from the reply. The HTTP
 *   status is 200 for an answered call whether ok or not, else that of a refused request; the body is an `Answer` in both cases.
 *   The session cookie goes along by itself (`credentials: 'same-origin'`, the default of fetch).
 * Both ways carry the same plain JSON: bytes are base64 text, times are ISO 8601 UTC text, a figure that is not known is null.
 *
 * How a run is kept
 * 1. `beginRun` gives a run id. 2. While cutting, every 250 to 500 ms, `appendToRun` sends the ticks since the last chunk: the
 * bytes of `encodeHandLog` of a hand log holding only those ticks, with `sequence` 0, 1, 2... and `firstTick` = ticks sent before.
 * The reply means that the chunk is on disk. A chunk that was not acknowledged may be sent again unchanged (same sequence, same
 * bytes: acknowledged again). 3. `finishRun` closes the run with digests, score and trace; the host joins the chunks itself.
 * A run that was never finished stays with everything that was acknowledged, state 'unfinished'; nothing is ever deleted.
 */
import { z } from 'zod';
import type { MaterialId, RigId } from '../sim-core/index.ts';
import type { CallError } from './contract/call-error.ts';
import { DEMO_YARD_VERBS } from './contract/demo-yard.ts';
import { drillBuilderVerbs } from './contract/drill-builder.ts';
import { LEDGER_VERBS } from './contract/ledger.ts';
import { PAPER_VERBS } from './contract/papers.ts';
import { PERSON_ROLES, personSchema } from './contract/person.ts';
import { ROSTER_VERBS } from './contract/roster.ts';
import { RUN_VERBS } from './contract/run-verbs.ts';
import { settingsSchema } from './contract/settings.ts';
import { SESSION_VERBS } from './contract/sign-in.ts';
import { drillIdSchema, finite, id, sha256Hex, shortText } from './contract/values.ts';
import { VERDICT_VERBS } from './contract/verdicts.ts';
import { YARD_VERBS } from './contract/yard.ts';

export type { CallError, ErrorCode } from './contract/call-error.ts';
export type { DemoYard, DemoYardFacts } from './contract/demo-yard.ts';
export type { DrillVersion } from './contract/drill-builder.ts';
export * from './contract/hand-settings.ts';
export type { BackupFacts, FileJobBegun, PaperJob, TakenDrill } from './contract/job.ts';
export { LEDGER_KINDS, type LedgerEntry, type LedgerKind } from './contract/ledger.ts';
export { FILE_PIECE_LIMIT_BYTES, type PackPreview, type RunChoice } from './contract/papers.ts';
export * from './contract/person.ts';
export type { PriceSettings } from './contract/price-settings.ts';
export * from './contract/run-record.ts';
export type { Standing } from './contract/run-verbs.ts';
export * from './contract/settings.ts';
export type { WhoAmI } from './contract/sign-in.ts';
export { drillIdSchema, REQUEST_LIMIT_BYTES } from './contract/values.ts';
export type { ModerationSet, Note, UnreadableVerdict, VerdictRecord } from './contract/verdicts.ts';
export type { Assignment, ClassView, Due, Group, Progress, QueueRow } from './contract/yard.ts';

// The page runs under a content policy without 'unsafe-eval': zod must not probe for `new Function`.
z.config({ jitless: true });

export const materialSchema = z.enum(['mild-steel', 'stainless-steel', 'aluminium'] satisfies MaterialId[]);
export const rigSchema = z.enum(['40', '60', '100'] satisfies RigId[]);
/** A drill as a list shows it. `hash` is the SHA-256 of its content (minified JSON): it names one version for ever. */
export const drillSummarySchema = z.strictObject({
  id: drillIdSchema,
  hash: sha256Hex,
  /** 'run-file': came with an imported run and is on no shelf. */
  source: z.enum(['shipped', 'own', 'run-file']),
  /** An own drill that was saved to be tried and is not kept for everybody yet; apprentices never get one. */
  draft: z.boolean(),
  title: shortText,
  technique: shortText,
  material: materialSchema,
  thicknessMm: finite,
});
export type DrillSummary = z.infer<typeof drillSummarySchema>;

export const speedWindowKeySchema = z.strictObject({
  coreVersion: shortText,
  material: materialSchema,
  thicknessMm: finite.positive().max(1000),
  currentA: finite.positive().max(1000),
  rig: rigSchema,
});
export const speedWindowSchema = z.strictObject({
  windowLowMmPerS: finite.nullable(),
  windowHighMmPerS: finite.nullable(),
  losingSpeedMmPerS: finite.nullable(),
  edgeDwellS: finite.nullable(),
  /** Why there is no window, in the core's own key or words; null where there is one. */
  reason: z.string().max(500).nullable(),
});
export type SpeedWindowKey = z.infer<typeof speedWindowKeySchema>;
export type SpeedWindowRecord = z.infer<typeof speedWindowSchema>;

const NOTICE_CODES = ['records-not-kept', 'runs-recovered', 'drill-skipped', 'restored', 'not-restored', 'clock-behind'] as const;
export const sessionSchema = z.strictObject({
  shell: z.enum(['electron', 'loopback']),
  appVersion: shortText,
  coreVersion: shortText,
  /** False where nothing can be kept (read-only folder): practice works, runs live until the app is closed. */
  keepsRecords: z.boolean(),
  /** Things a person should know before starting; each one sentence, which may name a path of any length. */
  notices: z.array(z.strictObject({ code: z.enum(NOTICE_CODES), message: z.string().min(1) })),
  personId: id.nullable(),
  settings: settingsSchema,
});
export type Session = z.infer<typeof sessionSchema>;

const nothing = z.strictObject({});
const DRILL_TEXT_LIMIT = 512 * 1024;
const drillText = z.string().max(DRILL_TEXT_LIMIT);

/**
 * What becomes of imported text whose id belongs to a different drill: 'refuse' answers with a conflict; 'replace' makes it the
 * current version of an own drill (a shipped one is never replaced; runs keep the version they were made with); 'keep-both'
 * stores it under the next free id (`id-2`, `id-3`...).
 */
export const DRILL_CONFLICTS = ['refuse', 'replace', 'keep-both'] as const;

/** The table of verbs. Requests and replies are parsed by the host, both ways. */
export const VERBS = {
  getSession: { request: nothing, reply: sessionSchema },

  listPeople: { request: nothing, reply: z.strictObject({ people: z.array(personSchema), chosenId: id.nullable() }) },
  /** The next free number of that role. */
  createPerson: { request: z.strictObject({ role: z.enum(PERSON_ROLES) }), reply: personSchema },
  /** Who practises from now on; null = nobody (runs are kept without a person). */
  choosePerson: { request: z.strictObject({ personId: id.nullable() }), reply: z.strictObject({ personId: id.nullable() }) },

  listDrills: { request: nothing, reply: z.strictObject({ drills: z.array(drillSummarySchema) }) },
  /** By id the current version, by hash exactly that one. */
  getDrill: {
    request: z.union([z.strictObject({ id: drillIdSchema }), z.strictObject({ hash: sha256Hex })]),
    reply: z.strictObject({ drill: drillSummarySchema, text: z.string() }),
  },
  /** Says whether text is a good drill without keeping it; a bad one is a 'bad-file' or 'newer-version' error. */
  checkDrill: { request: z.strictObject({ text: drillText }), reply: z.strictObject({ id: drillIdSchema, title: shortText }) },
  importDrill: {
    request: z.strictObject({ text: drillText, onConflict: z.enum(DRILL_CONFLICTS).default('refuse') }),
    /** 'same': exactly this text was there already. */
    reply: z.strictObject({ drill: drillSummarySchema, outcome: z.enum(['added', 'same', 'replaced', 'renamed']) }),
  },

  ...drillBuilderVerbs,

  ...RUN_VERBS,

  getSettings: { request: nothing, reply: settingsSchema },
  /** Only the named ones change; the reply is the whole set. */
  setSettings: { request: settingsSchema.partial(), reply: settingsSchema },

  /** Windows that pages have worked out and put, for one another. What the host itself decides never goes by them. */
  getSpeedWindow: { request: speedWindowKeySchema, reply: z.strictObject({ window: speedWindowSchema.nullable() }) },
  putSpeedWindow: { request: z.strictObject({ key: speedWindowKeySchema, window: speedWindowSchema }), reply: nothing },

  ...YARD_VERBS,
  ...ROSTER_VERBS,
  ...VERDICT_VERBS,
  ...PAPER_VERBS,
  ...LEDGER_VERBS,
  ...SESSION_VERBS,
  ...DEMO_YARD_VERBS,
} as const satisfies Record<string, { request: z.ZodType; reply: z.ZodType }>;

export type Verb = keyof typeof VERBS;
/** What the page sends: fields with a default may be left out. */
export type Request<V extends Verb> = z.input<(typeof VERBS)[V]['request']>;
/** What a service of the host receives: parsed, defaults filled in. */
export type ParsedRequest<V extends Verb> = z.output<(typeof VERBS)[V]['request']>;
export type Reply<V extends Verb> = z.output<(typeof VERBS)[V]['reply']>;
export type Answer<V extends Verb> = { ok: true; reply: Reply<V> } | { ok: false; error: CallError };

/** `window.kerfhand` in the Electron shell. */
export type KerfhandVerbs = { readonly [V in Verb]: (request: Request<V>) => Promise<Answer<V>> };

export const VERB_NAMES = Object.keys(VERBS) as Verb[];
export function isVerb(name: unknown): name is Verb {
  return typeof name === 'string' && Object.hasOwn(VERBS, name);
}
