import { existsSync, rmSync } from 'node:fs';
import { mkdir, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import type { DemoYard } from '../contract/demo-yard.ts';
import { damagedDemoYard, noDemoYard, readDemoYardFacts, unpackDemoYard } from './demo-yard-file.ts';
import { HostError } from './host-error.ts';
import { RECORDS_FILE } from './open-records.ts';
import { restoreYard } from './papers/restore-yard.ts';
import { storageFailure } from './storage-failure.ts';

/** Names inside the data folder. A part of one or the other is what a power cut left; it is never opened. */
const FOLDER = 'demo-yard';
const PART = '.demo-yard.part';
const GOING = '.demo-yard.going';

export interface DemoYardFolder {
  readonly folder: string;
  facts(isOpen: boolean): Promise<DemoYard>;
  /** Unpacks the demo yard where it is not there. @throws HostError; nothing is left of it then */
  ensure(): Promise<void>;
  /** Deletes it. No host may have it open. */
  remove(): Promise<void>;
}

/**
 * The place of the demo yard inside a data folder.
 * @param dataFolder owned by the caller; null = nothing is kept, and so there is no demo yard
 * @param file the demo yard as it is shipped
 */
export function demoYardFolder(dataFolder: string | null, file: string, appVersion: string): DemoYardFolder {
  const own = (name: string) => path.join(dataFolder ?? '', name);
  const folder = own(FOLDER);
  if (dataFolder !== null) for (const name of [PART, GOING]) rmSync(own(name), { recursive: true, force: true });
  const isThere = () => dataFolder !== null && existsSync(path.join(folder, RECORDS_FILE));

  async function unpack(): Promise<void> {
    const part = own(PART);
    const backup = await unpackDemoYard(file);
    try {
      await rm(part, { recursive: true, force: true });
      await rm(folder, { recursive: true, force: true });
      await mkdir(part, { recursive: true });
      const backupFile = path.join(part, 'backup');
      await writeFile(backupFile, backup);
      await restoreYard({ file: backupFile, folder: part, appVersion, now: new Date() });
      await rm(backupFile);
      // From here on it is there, whole.
      await rename(part, folder);
    } catch (error) {
      await rm(part, { recursive: true, force: true });
      if (error instanceof HostError && error.code === 'bad-file') throw damagedDemoYard(error);
      throw storageFailure(error, folder) ?? error;
    }
  }

  return {
    folder,
    async facts(isOpen) {
      const facts = dataFolder === null ? null : await readDemoYardFacts(file);
      if (!facts) return { state: 'missing', facts: null };
      return { state: isOpen ? 'open' : isThere() ? 'there' : 'absent', facts };
    },
    async ensure() {
      if (dataFolder === null) throw noDemoYard();
      if (!isThere()) await unpack();
    },
    async remove() {
      if (dataFolder === null || !existsSync(folder)) return;
      try {
        // By one rename it is gone; the rest is tidying up.
        await rename(folder, own(GOING));
        await rm(own(GOING), { recursive: true, force: true });
      } catch (error) {
        throw storageFailure(error, folder) ?? error;
      }
    },
  };
}
