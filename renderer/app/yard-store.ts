import { create } from 'zustand';
import type { DrillSummary, Person, RunSummary, Session, Settings, Standing } from '../../electron/contract.ts';
import { FIRST_HAND_SETTINGS } from '../input/first-hand-settings.ts';
import { errorWords } from './error-words.ts';
import { callHost, HostError } from './host-client.ts';
import { onlyLatest } from './only-latest.ts';

/** Slow state of the page: who practises, what there is to practise, what was done, how things look. Nothing of a running cut. */
export interface YardState {
  session: Session | null;
  settings: Settings;
  people: Person[];
  chosenId: string | null;
  drills: DrillSummary[];
  /** How far whoever practises has come with each drill that was tried; anybody, while nobody is chosen. */
  standings: Standing[];
  runs: RunSummary[];
  runTotal: number;
  /** One sentence about the last thing that did not work; null when all is well. */
  trouble: string | null;
  cautionRead: boolean;
}

/** Until the host has answered: what it would answer on a new machine. */
export const FIRST_SETTINGS: Settings = {
  units: 'metric',
  theme: 'system',
  qualityTier: 'auto',
  language: 'en',
  pinnedViews: ['under-plate'],
  soundOn: true,
  calmLight: 'system',
  soundLevel: 0.35,
  cuesAtTorch: true,
  prices: {
    currency: '¤',
    electrode: 10,
    nozzle: 8,
    shield: 20,
    gasPerM3: 0.5,
    platePerKg: { 'mild-steel': 2, 'stainless-steel': 6, aluminium: 5 },
    stationPerHour: 40,
  },
  yardName: 'Training yard',
  idleSignOutMinutes: 15,
  hand: FIRST_HAND_SETTINGS,
};

const RUNS_ON_HOME = 12;

export const useYard = create<YardState>(() => ({
  session: null,
  settings: FIRST_SETTINGS,
  people: [],
  chosenId: null,
  drills: [],
  standings: [],
  runs: [],
  runTotal: 0,
  trouble: null,
  cautionRead: false,
}));

export function tellTrouble(error: unknown): void {
  useYard.setState({ trouble: errorWords(error) });
}

/** Tells a trouble in a sentence of the page's own tables. */
export function tellWords(trouble: string): void {
  useYard.setState({ trouble });
}

/** Runs a call; what goes wrong is told in its own sentence on the page. Null when it went wrong. */
async function orTell<T>(call: () => Promise<T>): Promise<T | null> {
  try {
    return await call();
  } catch (error) {
    tellTrouble(error);
    return null;
  }
}

const askForYard = onlyLatest();
const askForRuns = onlyLatest();
const askForPerson = onlyLatest();
const askForSettings = onlyLatest();

/** Asks the host for everything the home page shows. */
export async function loadYard(): Promise<void> {
  await orTell(async () => {
    const isLast = askForYard();
    // What is chosen meanwhile is newer than the answer.
    const [settingsStand, choiceStands] = [askForSettings.look(), askForPerson.look()];
    const [session, people, drills] = await Promise.all([
      callHost('getSession', {}),
      callHost('listPeople', {}),
      callHost('listDrills', {}),
    ]);
    if (!isLast()) return;
    useYard.setState({
      session,
      ...(settingsStand() ? { settings: session.settings } : {}),
      people: people.people,
      ...(choiceStands() ? { chosenId: people.chosenId } : {}),
      drills: drills.drills,
    });
  });
  await loadRuns();
}

/** Latest runs and standings of whoever practises; of everybody while nobody is chosen. */
export async function loadRuns(): Promise<void> {
  await orTell(async () => {
    const { chosenId } = useYard.getState();
    const isLast = askForRuns();
    const [{ runs, total }, { standings }] = await Promise.all([
      callHost('listRuns', { ...(chosenId ? { personId: chosenId } : {}), limit: RUNS_ON_HOME }),
      callHost('listStandings', { personId: chosenId }),
    ]);
    if (isLast() && useYard.getState().chosenId === chosenId) useYard.setState({ runs, runTotal: total, standings });
  });
}

export async function choosePerson(personId: string | null): Promise<void> {
  await orTell(async () => {
    const isLast = askForPerson();
    const { personId: chosenId } = await callHost('choosePerson', { personId });
    if (isLast()) useYard.setState({ chosenId });
  });
  await loadRuns();
}

export async function createPerson(role: Person['role']): Promise<void> {
  const person = await orTell(() => callHost('createPerson', { role }));
  if (!person) return;
  useYard.setState((state) => ({ people: [...state.people, person] }));
  await choosePerson(person.id);
}

/** Changes show at once; the host keeps them. */
export async function changeSettings(change: Partial<Settings>): Promise<void> {
  useYard.setState((state) => ({ settings: { ...state.settings, ...change } }));
  const isLast = askForSettings();
  try {
    const settings = await callHost('setSettings', change);
    if (isLast()) useYard.setState({ settings });
  } catch (error) {
    // Where nothing can be kept the setting still holds until the app is closed.
    if (!(error instanceof HostError && error.code === 'read-only')) tellTrouble(error);
  }
}
