import type { ParsedRequest, Reply, Session, Verb } from '../contract.ts';
import type { DrillShelf } from './drill-shelf.ts';
import { readDrillText } from './drill-text.ts';
import type { Drills } from './drills.ts';
import type { People } from './people.ts';
import type { RunExchange } from './run-exchange.ts';
import type { RunShelf } from './run-shelf.ts';
import type { RunSpool } from './run-spool.ts';
import type { Runs } from './runs.ts';
import type { SettingsStore } from './settings-store.ts';
import type { SpeedWindows } from './speed-windows.ts';

/** One function a verb; the compiler holds it to the contract. */
export type Services = { readonly [V in Verb]: (request: ParsedRequest<V>) => Promise<Reply<V>> };

export interface ServiceParts {
  session: () => Promise<Session>;
  settings: SettingsStore;
  people: People;
  drills: Drills;
  drillShelf: DrillShelf;
  shelf: RunShelf;
  spool: RunSpool;
  runs: Runs;
  exchange: RunExchange;
  speedWindows: SpeedWindows;
}

/** Which part of the host answers which verb. */
export function createServices(parts: ServiceParts): Services {
  const { settings, people, drills, drillShelf, shelf, spool, runs, exchange, speedWindows } = parts;
  return {
    getSession: () => parts.session(),
    listPeople: () => people.list(),
    createPerson: ({ role }) => people.create(role),
    choosePerson: ({ personId }) => people.choose(personId),
    listDrills: () => drills.list(),
    getDrill: (request) => drills.get(request),
    checkDrill: async ({ text }) => {
      const { drill } = readDrillText(text);
      return { id: drill.id, title: drill.title };
    },
    importDrill: (request) => drills.import(request),
    listDrillVersions: ({ id }) => drillShelf.versions(id),
    saveDrill: (request) => drillShelf.save(request),
    keepDemonstration: (request) => drillShelf.keepDemonstration(request),
    beginRun: (request) => runs.begin(request),
    appendToRun: (request) => runs.append(request),
    finishRun: (request) => runs.finish(request),
    abandonRun: ({ runId }) => runs.abandon(runId),
    listRuns: async (request) => {
      await spool.markSilent();
      return await shelf.list(request);
    },
    listStandings: async ({ personId }) => ({ standings: await shelf.standings(personId) }),
    getRun: ({ runId }) => shelf.get(runId),
    exportRun: ({ runId }) => exchange.export(runId),
    importRun: ({ text }) => exchange.import(text),
    getSettings: () => settings.get(),
    setSettings: (changes) => settings.set(changes),
    getSpeedWindow: (key) => speedWindows.get(key),
    putSpeedWindow: ({ key, window }) => speedWindows.put(key, window),
  };
}
