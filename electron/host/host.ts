import type { z } from 'zod';
import { CORE_VERSION } from '../../sim-core/index.ts';
import { ASKED_BY_THE_PAGE } from '../contract/call-roles.ts';
import type { Answer, CallError, DemoYard, Session, Verb } from '../contract.ts';
import { isVerb, VERBS } from '../contract.ts';
import { createAssignments } from './assignments.ts';
import { type Caller, type Connection, mustBeAllowed, newConnection } from './caller.ts';
import { type CoreWorkers, createCoreWorkers } from './core-workers.ts';
import { noDemoYard } from './demo-yard-file.ts';
import { createDrillShelf } from './drill-shelf.ts';
import { createDrills } from './drills.ts';
import { createExportNotes } from './export-notes.ts';
import { createGroups } from './groups.ts';
import { handOutBytesWith, handOutWith } from './hand-out-file.ts';
import { HostError } from './host-error.ts';
import { createLedger, type Ledger } from './ledger.ts';
import { createModeration } from './moderation.ts';
import { type OpenRecords, openRecords } from './open-records.ts';
import { createOwnRuns } from './own-runs.ts';
import { createPaperDesk, type PaperDesk } from './paper-desk.ts';
import { createPaperJobs } from './paper-desk-jobs.ts';
import { createPassphrases } from './passphrases.ts';
import { payloadProblem } from './payload-problem.ts';
import { createPeople } from './people.ts';
import { ensurePractice, practiceWords } from './rebuild-practice.ts';
import type { RecordsDatabase } from './records-tables.ts';
import { type RestoredAtStart, restoreAtStart, restoredSentence, withdrawRestore } from './restore-at-start.ts';
import { createReviewQueue } from './review-queue.ts';
import { createRosterExchange } from './roster-exchange.ts';
import { createRunExchange } from './run-exchange.ts';
import { createRunShelf } from './run-shelf.ts';
import { createRunSpool, recoverOpenRuns } from './run-spool.ts';
import { createRunTrusts } from './run-trust.ts';
import { createRuns } from './runs.ts';
import type { ScryptCost } from './scrypt-passphrase.ts';
import { createServices, type Services } from './services.ts';
import { createSessions, type Sessions } from './sessions.ts';
import { createSettingsStore } from './settings-store.ts';
import { readShippedDrills } from './shipped-drills.ts';
import { createSigningKeys } from './signing-keys.ts';
import { createSpeedWindows } from './speed-windows.ts';
import { isTooLargeNumber, storageFailure } from './storage-failure.ts';
import { createVerdicts } from './verdicts.ts';
import { createWhyImpossible } from './why-impossible.ts';

export interface HostOptions {
  /** Folder of the records, see `dataFolder`. */
  folder: string;
  /** Folder of the drills that come with Kerfhand. */
  scenariosFolder: string;
  shell: Session['shell'];
  appVersion: string;
  /** Asks a person where to put an exported file; null = cancelled. Absent where the shell cannot ask: the page downloads then. */
  askWhereToSave?: (suggestedName: string) => Promise<string | null>;
  /** Takes what only a developer needs to know. */
  log?: (line: string) => void;
  /** Takes what whoever starts Kerfhand is told while they wait, a sentence at a time. */
  tell?: (line: string) => void;
  /** See `OpenRecordsOptions`. */
  maxPages?: number;
  /** See `createRunSpool`. */
  nowMs?: () => number;
  /** Time of day for the waits after wrong passphrases, ms since 1970. */
  timeOfDayMs?: () => number;
  /** What there is of the demo yard; absent where this host stands alone, see `openYards`. */
  demoYard?: () => Promise<DemoYard>;
  /** Cost of new passphrases; tests ask for less. */
  scryptCost?: ScryptCost;
}

export interface Host {
  /**
   * Answers one call of the page; never rejects. Request and reply are both held to the contract, the caller to its table of roles.
   * Without a connection the call is made on the host's own, which serves the one page of a shell.
   */
  call(verb: unknown, payload: unknown, connection?: Connection): Promise<Answer<Verb>>;
  /** Waits for calls under way, then closes the records and lets go of the lock. */
  close(): Promise<void>;
}

/**
 * Opens records and drills and puts the services behind the contract. The same for every shell; imports nothing of Electron.
 * @throws HostError with the sentence to show where the records cannot be opened
 */
export async function openHost(options: HostOptions): Promise<Host> {
  const restored = await restoreAtStart(options.folder, options.appVersion);
  const records = await openRecords(options);
  try {
    return serve(await assemble(options, records, restored), records, options.log ?? (() => undefined));
  } catch (error) {
    await records.close();
    throw knownError(error, records.where, 'opening') ?? error;
  }
}

interface Assembled {
  services: Services;
  sessions: Sessions;
  paperDesk: PaperDesk;
  core: CoreWorkers;
}

async function assemble(options: HostOptions, records: OpenRecords, restored: RestoredAtStart | null): Promise<Assembled> {
  const { db } = records;
  const notices: Session['notices'] = [];
  if (records.notKept) notices.push({ code: 'records-not-kept', message: records.notKept });
  const recovered = await recoverOpenRuns(db);
  if (recovered > 0) notices.push({ code: 'runs-recovered', message: recoveredSentence(recovered) });
  const shipped = readShippedDrills(options.scenariosFolder);
  for (const sentence of shipped.skipped) notices.push({ code: 'drill-skipped', message: sentence });

  const settings = createSettingsStore(db);
  const ledger = createLedger(db, records.ledgerTail);
  await ledger.settle();
  if (restored) notices.push(await noteRestored(db, ledger, restored));
  if (restored?.ok) withdrawRestore(options.folder);
  const clock = await ledger.clockBehind();
  if (clock) notices.push({ code: 'clock-behind', message: clock });
  const people = createPeople(db, settings, ledger);
  const passphrases = createPassphrases(db, options.scryptCost, options.timeOfDayMs);
  const keys = createSigningKeys(db, options.scryptCost?.n);
  const sessions = await createSessions({ db, people, passphrases, ledger, keys, settings, nowMs: options.timeOfDayMs });
  const core = createCoreWorkers({ log: options.log });
  const speedWindows = createSpeedWindows(db);
  const whyImpossible = createWhyImpossible(core);
  const drills = createDrills({ db, shipped, ledger, whyImpossible });
  const drillShelf = createDrillShelf({ db, shipped, ledger, whyImpossible });
  const shelf = createRunShelf(db);
  const spool = createRunSpool(db, options.nowMs);
  const assignments = createAssignments(db, drills, ledger);
  const runs = createRuns({ db, drills, people, shelf, spool, assignments, core });
  await ensurePractice(db, settings, practiceWords(options.tell ?? (() => undefined)));
  const handOut = handOutWith(options.askWhereToSave);
  const exchange = createRunExchange({ db, drills, shelf, ledger, handOut, core });
  const trusts = createRunTrusts(db, core);
  const verdicts = createVerdicts({ db, shelf, passphrases, keys, ledger, handOut, trusts });
  const moderation = createModeration({ db, people, shelf, ledger });
  const exports = createExportNotes(db, ledger);
  const jobs = createPaperJobs(options.log ?? (() => undefined));
  const paperDesk = createPaperDesk({
    ...{
      db,
      shipped,
      drills,
      drillShelf,
      shelf,
      exchange,
      ledger,
      verdicts,
      moderation,
      trusts,
      handOut,
      passphrases,
      core,
      settings,
      whyImpossible,
    },
    handOutBytes: handOutBytesWith(options.askWhereToSave),
    askWhereToSave: options.askWhereToSave,
    folder: records.notKept === null ? options.folder : null,
    appVersion: options.appVersion,
    jobs,
    exports,
  });
  const services = createServices({
    session: async (caller) => ({
      shell: options.shell,
      appVersion: options.appVersion,
      coreVersion: CORE_VERSION,
      keepsRecords: records.notKept === null,
      notices,
      personId: await sessions.practising(caller),
      settings: await settings.get(),
    }),
    demoYard: options.demoYard ?? (() => Promise.reject(noDemoYard())),
    settings,
    people,
    drills,
    drillShelf,
    shelf,
    spool,
    runs,
    exchange,
    speedWindows,
    sessions,
    ledger,
    db,
    groups: createGroups(db, ledger),
    assignments,
    queue: createReviewQueue(db, shelf, ledger),
    own: createOwnRuns(shelf),
    verdicts,
    roster: createRosterExchange(db, ledger, handOut),
    moderation,
    paperDesk,
    trusts,
    jobs,
    exports,
  });
  return { services, sessions, paperDesk, core };
}

function serve({ services, sessions, paperDesk, core }: Assembled, records: OpenRecords, log: (line: string) => void): Host {
  const ownConnection = newConnection();
  const underWay = new Set<Promise<unknown>>();
  let closing: Promise<void> | null = null;

  async function answer(verb: unknown, payload: unknown, connection: Connection): Promise<Answer<Verb>> {
    try {
      if (!isVerb(verb))
        throw new HostError('bad-request', `There is no call named ${JSON.stringify(nameOf(verb).slice(0, 60))}.`);
      const problem = payloadProblem(payload);
      if (problem) throw new HostError('bad-request', `The call ${verb} was not understood: ${problem}.`);
      const request = VERBS[verb].request.safeParse(payload);
      if (!request.success)
        throw new HostError('bad-request', `The call ${verb} was not understood: ${firstIssue(request.error.issues)}.`);
      await sessions.note(connection, !ASKED_BY_THE_PAGE.has(verb));
      const caller = sessions.caller(connection);
      mustBeAllowed(verb, caller);
      const service = services[verb] as (request: unknown, caller: Caller) => Promise<unknown>;
      const reply = VERBS[verb].reply.safeParse(await service(request.data, caller));
      if (reply.success) return { ok: true, reply: reply.data } as Answer<Verb>;
      const place = firstIssue(reply.error.issues);
      log(`call ${verb}: the reply is not as the contract has it: ${place}`);
      if (reply.error.issues.every(isTooLong)) throw tooLongToAnswer(verb, place);
      throw strangeRecords(records.where, `the call ${verb}, ${place}`);
    } catch (error) {
      return { ok: false, error: callError(error, records.where, `call ${nameOf(verb)}`, log) };
    }
  }

  return {
    call(verb, payload, connection = ownConnection) {
      if (closing)
        return Promise.resolve({ ok: false, error: { code: 'internal', message: 'Kerfhand is closing; nothing was changed.' } });
      const call = answer(verb, payload, connection);
      underWay.add(call);
      void call.finally(() => underWay.delete(call));
      return call;
    },
    close() {
      core.stopChecks();
      closing ??= Promise.allSettled(underWay)
        .then(() => paperDesk.close())
        .then(() => core.close())
        .finally(() => records.close());
      return closing;
    },
  };
}

/** A verb as it came, for a sentence: anything may stand in its place, and not everything can be made a text. */
function nameOf(verb: unknown): string {
  return typeof verb === 'string' ? verb : `(${typeof verb})`;
}

/** Any failure as the page and a person may see it. What is not foreseen goes to the log in full and to the page in one sentence. */
export function callError(error: unknown, where: string, during: string, log: (line: string) => void): CallError {
  const known = knownError(error, where, during);
  if (known && known.code !== 'internal') return { code: known.code, message: known.message };
  log(`${during}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
  return {
    code: 'internal',
    message: known?.message ?? `Something went wrong inside Kerfhand (${during}); what was kept before is safe.`,
  };
}

function knownError(error: unknown, where: string, during: string): HostError | null {
  if (error instanceof HostError) return error;
  // Requests come parsed: what is no JSON here was kept as JSON and is not any more. No number of ours is beyond 2^53 either.
  if (error instanceof SyntaxError || isTooLargeNumber(error)) return strangeRecords(where, `the ${during}`);
  return storageFailure(error, where);
}

function strangeRecords(where: string, place: string): HostError {
  return new HostError(
    'damaged',
    `The records in ${where} hold something that is not as Kerfhand writes it (found in ${place}), so there is no answer; where this stays so, a backup from before brings back what was there.`,
  );
}

function isTooLong(issue: z.core.$ZodIssue): boolean {
  return issue.code === 'too_big' && (issue.origin === 'array' || issue.origin === 'string');
}

/** Records that only hold more than an answer may are whole. */
function tooLongToAnswer(verb: Verb, place: string): HostError {
  return new HostError(
    'too-large',
    `The answer to the call ${verb} would be longer than one may be (${place}); what is kept is not damaged by it.`,
  );
}

function firstIssue(issues: readonly { path: PropertyKey[]; message: string }[]): string {
  const [issue] = issues;
  if (!issue) return 'it is malformed';
  const place = issue.path.map(String).join('.');
  return `${place ? `at ${place}: ` : ''}${issue.message.slice(0, 200)}`;
}

/** A restored yard says so in its own ledger; who asked is a name, for the person need not be in it. */
async function noteRestored(db: RecordsDatabase, ledger: Ledger, restored: RestoredAtStart): Promise<Session['notices'][number]> {
  if (!restored.ok) return { code: 'not-restored', message: restored.sentence };
  const { askedBy, backup, keptAside } = restored;
  const body = { ...backup, askedBy, keptAside };
  await db.transaction().execute((step) => ledger.add(step, { who: null, kind: 'restore', subject: 'yard', body }));
  await ledger.settle();
  return { code: 'restored', message: restoredSentence(restored) };
}

function recoveredSentence(count: number): string {
  const runs = count === 1 ? 'One run that was' : `${count} runs that were`;
  return `${runs} under way when Kerfhand last ended ${count === 1 ? 'is' : 'are'} kept as unfinished, up to the last inputs that reached the disk.`;
}
