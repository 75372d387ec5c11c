import path from 'node:path';
import type { Answer, Verb } from '../contract.ts';
import type { Connection } from './caller.ts';
import { newConnection } from './caller.ts';
import { type DemoYardFolder, demoYardFolder } from './demo-yard-folder.ts';
import { callError, type Host, type HostOptions, openHost } from './host.ts';
import { HostError } from './host-error.ts';

export const DEMO_YARD_FILE = path.join('demo-yard', 'tidewater-row.kerfhand-demo');

export interface YardsOptions extends HostOptions {
  /** The demo yard as it is shipped; by default the one in the scenarios folder. */
  demoYardFile?: string;
}

/** A yard that is served: its host, and who is signed in there on which connection. */
interface ServedYard {
  host: Host;
  connections: WeakMap<Connection, Connection>;
}

/** These change which yard is served; the inner host only says whether the caller may. */
const SWITCHES = ['openDemoYard', 'leaveDemoYard', 'removeDemoYard'] as const satisfies Verb[];
type Switch = (typeof SWITCHES)[number];
const isSwitch = (verb: unknown): verb is Switch => SWITCHES.some((one) => one === verb);

/**
 * A host that serves the yard of a data folder, and in its place, while it is open, the demo yard. The own yard stays open behind
 * it, so that nobody else can take it and leaving always leads back; whoever was signed in before a switch is not after it.
 * @throws HostError as `openHost` does
 */
export async function openYards({ demoYardFile, ...options }: YardsOptions): Promise<Host> {
  let demoYard: DemoYardFolder | null = null;
  let demo: ServedYard | null = null;
  const log = options.log ?? (() => undefined);
  const facts = () => {
    if (!demoYard) throw new HostError('conflict', 'The yard is not open yet.');
    return demoYard.facts(demo !== null);
  };
  const own = served(await openHost({ ...options, demoYard: facts }));
  const session = await own.host.call('getSession', {});
  const keeps = session.ok && 'keepsRecords' in session.reply && session.reply.keepsRecords;
  const file = demoYardFile ?? path.join(options.scenariosFolder, DEMO_YARD_FILE);
  const place = demoYardFolder(keeps ? options.folder : null, file, options.appVersion);
  demoYard = place;

  const ownConnection = newConnection();
  let switching: Promise<unknown> = Promise.resolve();

  async function openDemo(): Promise<void> {
    if (demo) return;
    await place.ensure();
    const host = await openHost({ ...options, folder: place.folder, demoYard: facts });
    await carryLooks(own.host, host);
    demo = served(host);
    own.connections = new WeakMap();
  }

  async function leaveDemo(): Promise<void> {
    const left = demo;
    demo = null;
    await left?.host.close();
  }

  async function change(verb: Switch): Promise<Answer<Verb>> {
    try {
      if (verb === 'openDemoYard') await openDemo();
      else await leaveDemo();
      if (verb === 'removeDemoYard') await place.remove();
      return { ok: true, reply: await facts() };
    } catch (error) {
      return { ok: false, error: callError(error, place.folder, `call ${verb}`, log) };
    }
  }

  return {
    async call(verb, payload, connection = ownConnection) {
      await switching;
      const yard = demo ?? own;
      const inner = yard.connections.get(connection) ?? newConnection();
      yard.connections.set(connection, inner);
      const answer = await yard.host.call(verb, payload, inner);
      if (!answer.ok || !isSwitch(verb)) return answer;
      const changed = switching.then(() => change(verb));
      switching = changed;
      return await changed;
    },
    async close() {
      await switching;
      await leaveDemo();
      await own.host.close();
    },
  };
}

function served(host: Host): ServedYard {
  return { host, connections: new WeakMap() };
}

/** The demo yard looks as the own one does: light, measures, picture and sound are the machine's, not the yard's. */
async function carryLooks(from: Host, to: Host): Promise<void> {
  const settings = await from.call('getSettings', {});
  if (!settings.ok || !('theme' in settings.reply)) return;
  const { theme, units, qualityTier, language, pinnedViews, calmLight, soundOn, soundLevel, cuesAtTorch } = settings.reply;
  await to.call('setSettings', { theme, units, qualityTier, language, pinnedViews, calmLight, soundOn, soundLevel, cuesAtTorch });
}
