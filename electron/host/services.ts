import type { DemoYard, ParsedRequest, Reply, RunRecord, Session, Verb } from '../contract.ts';
import { blindEntries } from './blind-entries.ts';
import { type Caller, isStaff, signedIn } from './caller.ts';
import type { DrillShelf } from './drill-shelf.ts';
import { readDrillText } from './drill-text.ts';
import type { Drills } from './drills.ts';
import { HostError } from './host-error.ts';
import type { Ledger } from './ledger.ts';
import { type PaperParts, paperServices } from './paper-desk.ts';
import type { RunExchange } from './run-exchange.ts';
import type { RunShelf } from './run-shelf.ts';
import type { RunSpool } from './run-spool.ts';
import type { Runs } from './runs.ts';
import { drillTextFor, endFor, isHidden, recordFor } from './sealed-assessment.ts';
import type { Sessions } from './sessions.ts';
import type { SpeedWindows } from './speed-windows.ts';
import { type VerdictParts, verdictServices, withoutBlindDecisions } from './verdict-services.ts';
import { type YardParts, yardServices } from './yard-services.ts';

/** One function a verb; the compiler holds it to the contract. What a caller may call at all was settled before. */
export type Services = { readonly [V in Verb]: (request: ParsedRequest<V>, caller: Caller) => Promise<Reply<V>> };

export interface ServiceParts extends YardParts, VerdictParts, PaperParts {
  session: (caller: Caller) => Promise<Session>;
  demoYard: () => Promise<DemoYard>;
  drills: Drills;
  drillShelf: DrillShelf;
  shelf: RunShelf;
  spool: RunSpool;
  runs: Runs;
  exchange: RunExchange;
  speedWindows: SpeedWindows;
  sessions: Sessions;
  ledger: Ledger;
}

/** Which part of the host answers which verb. */
export function createServices(parts: ServiceParts): Services {
  return {
    ...sessionServices(parts),
    ...drillServices(parts),
    ...runServices(parts),
    ...settingServices(parts),
    ...yardServices(parts),
    ...verdictServices(parts),
    ...paperServices(parts),
    ...demoYardServices(parts),
  };
}

type Some<V extends Verb> = Pick<Services, V>;

function sessionServices({
  session,
  people,
  sessions,
  ledger,
  moderation,
}: ServiceParts): Some<
  | 'getSession'
  | 'listPeople'
  | 'createPerson'
  | 'choosePerson'
  | 'whoAmI'
  | 'makeFirstInstructor'
  | 'signIn'
  | 'stillHere'
  | 'signOut'
  | 'setPassphrase'
  | 'checkLedger'
  | 'listLedger'
  | 'correctEntry'
> {
  return {
    getSession: (_request, caller) => session(caller),
    listPeople: async (_request, caller) => ({ ...(await people.list()), chosenId: await sessions.practising(caller) }),
    createPerson: ({ role }, caller) => people.create(role, caller.person?.id ?? null),
    choosePerson: ({ personId }, caller) => sessions.choose(personId, caller),
    whoAmI: (_request, caller) => sessions.whoAmI(caller),
    makeFirstInstructor: (request, { connection }) => sessions.makeFirstInstructor(request, connection),
    signIn: (request, { connection }) => sessions.signIn(request, connection),
    stillHere: (_request, caller) => sessions.whoAmI(caller),
    signOut: (_request, { connection }) => sessions.signOut(connection),
    setPassphrase: (request, caller) => sessions.setPassphrase(request, caller),
    checkLedger: () => ledger.check(),
    listLedger: async (request, caller) => {
      const { total, entries } = await ledger.list(request);
      const { id } = signedIn(caller);
      const [blindRuns, openSets] = await Promise.all([moderation.blindRuns(id), moderation.openSets()]);
      return { total, entries: blindEntries(entries, { id, blindRuns, openSets }) };
    },
    correctEntry: (request, caller) => ledger.correct(request, signedIn(caller).id),
  };
}

function drillServices({
  drills,
  drillShelf,
}: ServiceParts): Some<
  | 'listDrills'
  | 'getDrill'
  | 'checkDrill'
  | 'importDrill'
  | 'listDrillVersions'
  | 'saveDrill'
  | 'getDemonstration'
  | 'keepDemonstration'
> {
  return {
    listDrills: (_request, caller) => drills.list(isStaff(caller)),
    getDrill: async (request, caller) => {
      const { drill, text } = await drills.get(request, isStaff(caller));
      return { drill, text: drillTextFor(caller, text) };
    },
    checkDrill: async ({ text }) => {
      const { drill } = readDrillText(text);
      return { id: drill.id, title: drill.title };
    },
    importDrill: (request, caller) => drills.import(request, caller.person?.id ?? null),
    listDrillVersions: ({ id }) => drillShelf.versions(id),
    saveDrill: (request, caller) => drillShelf.save(request, caller.person?.id ?? null),
    getDemonstration: ({ hash }) => drillShelf.demonstration(hash),
    keepDemonstration: (request) => drillShelf.keepDemonstration(request),
  };
}

function runServices({
  drillShelf,
  runs,
  shelf,
  spool,
  exchange,
  own,
  moderation,
  exports,
}: ServiceParts): Some<
  | 'beginRun'
  | 'appendToRun'
  | 'finishRun'
  | 'getMarking'
  | 'abandonRun'
  | 'noteGuess'
  | 'listRuns'
  | 'listStandings'
  | 'getRun'
  | 'exportRun'
  | 'importRun'
> {
  return {
    beginRun: async (request, caller) => {
      const begun = await runs.begin(
        { ...request, personId: own.beginsFor(request.personId, caller) },
        { rolesBind: caller.rolesBind, withDrafts: isStaff(caller) },
      );
      caller.connection.begunRuns.add(begun.runId);
      return { ...begun, drillText: drillTextFor(caller, begun.drillText) };
    },
    appendToRun: async (request, caller) => {
      await own.mustBeCut(request.runId, caller);
      return await runs.append(request);
    },
    finishRun: async (request, caller) => {
      await own.mustBeCut(request.runId, caller);
      return endFor(caller, await runs.finish(request));
    },
    getMarking: async ({ runId }, caller) => {
      await own.mustBeCut(runId, caller);
      return { marking: runs.marking(runId) };
    },
    abandonRun: async ({ runId }, caller) => {
      await own.mustBeCut(runId, caller);
      return endFor(caller, await runs.abandon(runId));
    },
    noteGuess: async (request, caller) => {
      await own.mustBeGuessed(request.runId, caller);
      return { guess: await runs.noteGuess(request) };
    },
    listRuns: async (request, caller) => {
      await spool.markSilent();
      const { total, runs: listed } = await own.list(request, caller);
      return { total, runs: await withoutBlindDecisions(moderation, caller, listed) };
    },
    listStandings: ({ personId }, caller) => own.standings(personId, caller),
    getRun: async ({ runId }, caller) => {
      // A demonstration is there to be looked at by everybody.
      if (!(await drillShelf.isDemonstration(runId))) await own.mustBeSeen(runId, caller);
      const [run] = await withoutBlindDecisions(moderation, caller, [await shelf.get(runId)]);
      return recordFor(caller, run as RunRecord);
    },
    exportRun: async ({ runId }, caller) => {
      await own.mustBeSeen(runId, caller);
      if (isHidden(caller, await shelf.summary(runId)))
        throw new HostError('forbidden', 'The file of an assessment is handed out once it is decided.');
      const note = { who: caller.person?.id ?? null, subject: runId, body: { what: 'run' } };
      return await exports.of(exchange.export(runId), note);
    },
    importRun: async ({ text }, caller) => exchange.keep(await exchange.read(text), caller.person?.id ?? null),
  };
}

/** Which yard is served is for `openYards` to change; what stands here has only let the caller through. */
function demoYardServices({ demoYard }: ServiceParts): Some<'getDemoYard' | 'openDemoYard' | 'leaveDemoYard' | 'removeDemoYard'> {
  return { getDemoYard: demoYard, openDemoYard: demoYard, leaveDemoYard: demoYard, removeDemoYard: demoYard };
}

function settingServices({
  settings,
  speedWindows,
}: ServiceParts): Some<'getSettings' | 'setSettings' | 'getSpeedWindow' | 'putSpeedWindow'> {
  return {
    getSettings: () => settings.get(),
    setSettings: async (changes, caller) => {
      if (changes.prices !== undefined && !isStaff(caller))
        throw new HostError('forbidden', 'Prices of the shop are set by instructors and assessors.');
      const ofTheYard = changes.yardName !== undefined || changes.idleSignOutMinutes !== undefined;
      if (ofTheYard && caller.rolesBind && caller.person?.role !== 'instructor')
        throw new HostError(
          'forbidden',
          'The name of the yard and the time until somebody is signed out are set by instructors.',
        );
      return await settings.set(changes);
    },
    getSpeedWindow: (key) => speedWindows.get(key),
    putSpeedWindow: ({ key, window }) => speedWindows.put(key, window),
  };
}
