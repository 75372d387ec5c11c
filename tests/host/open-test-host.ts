import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, onTestFinished } from 'vitest';
import type { Verb } from '../../electron/contract.ts';
import { type Connection, newConnection } from '../../electron/host/caller.ts';
import { type Host, type HostOptions, openHost } from '../../electron/host/host.ts';
import { type Ask, asking } from './asking.ts';
import { SCENARIOS } from './sample-hand.ts';

/** A new empty folder that is removed when the test ends. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'kerfhand-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export interface TestPage extends Pick<Host, 'call'> {
  ask: Ask;
  /** The error of a call that must be refused, as 'code: message'. */
  refusal(verb: Verb, request: unknown): Promise<string>;
}

export interface TestHost extends Host, TestPage {
  /** Another page, on a connection of its own: nobody is signed in there. */
  page(): TestPage;
}

/** Enough to prove that passphrases are hashed, little enough for a test. */
export const CHEAP_SCRYPT = { n: 2 ** 8, r: 8, p: 1 };

/** A host on real shipped drills. The test fails where the host has anything to say to its fault log. */
export async function openTestHost(options: Partial<HostOptions> = {}): Promise<TestHost> {
  const faults: string[] = [];
  const host = await openHost({
    folder: options.folder ?? temporaryFolder(),
    scenariosFolder: SCENARIOS,
    shell: 'loopback',
    appVersion: '0.1.0',
    scryptCost: CHEAP_SCRYPT,
    log: (line) => faults.push(line),
    ...options,
  });
  onTestFinished(async () => {
    await host.close();
    expect(faults, 'the fault log of the host').toEqual([]);
  });
  return { ...pageOf(host), close: () => host.close(), page: () => pageOf(host, newConnection()) };
}

/** Calls as one page makes them; without a connection, on the host's own. */
export function pageOf(host: Host, connection?: Connection): TestPage {
  return {
    call: (verb, payload, other = connection) => host.call(verb, payload, other),
    ask: asking(host, connection),
    async refusal(verb, request) {
      const answer = await host.call(verb, request, connection);
      if (answer.ok) throw new Error(`${verb} was answered and should have been refused`);
      return `${answer.error.code}: ${answer.error.message}`;
    },
  };
}
