import { create } from 'zustand';
import type { Person } from '../../electron/contract.ts';
import { PageError } from '../app/error-words.ts';
import { callHost } from '../app/host-client.ts';
import { goTo, type Route } from '../app/route.ts';
import { say } from '../text/say.ts';
import { type FileKind, fileKindOf, LOOKED_AT_BYTES } from './file-kind.ts';

/** Kinds that a room asks about before anything is done. */
export type WaitingKind = 'drill' | 'pack' | 'roster' | 'backup';

/** A file on its way to the room that it belongs to. */
export interface WaitingFile {
  kind: WaitingKind;
  file: File;
}

const useWaitingFile = create<{ waiting: WaitingFile | null }>(() => ({ waiting: null }));

const ROOM_OF: Record<WaitingKind, Route> = {
  drill: { at: 'packs' },
  pack: { at: 'packs' },
  roster: { at: 'people' },
  backup: { at: 'backup' },
};

/** Enough of a file that is larger than anything that is read whole. */
const BEGINNING_BYTES = 64 * 1024;

async function lookInto(file: File): Promise<{ kind: FileKind; text: string }> {
  const text = await (file.size > LOOKED_AT_BYTES ? file.slice(0, BEGINNING_BYTES) : file).text();
  return { kind: fileKindOf(file.name, text), text };
}

/**
 * Takes what somebody dropped or chose to where it belongs: a run is taken in and opened, all else waits in its room to be looked
 * at. Rejects with a PageError where there is no place for it, or it is not for this person.
 */
export async function bringFile(file: File, me: Person | null): Promise<void> {
  const { kind, text } = await lookInto(file);
  if (kind === 'run') {
    if (me?.role === 'apprentice') throw new PageError(say('bring.not-yours.run', { name: file.name }));
    const { run } = await callHost('importRun', { text });
    goTo({ at: 'review', runId: run.id });
    return;
  }
  if (kind !== 'drill' && kind !== 'pack' && kind !== 'roster' && kind !== 'backup')
    throw new PageError(say(`bring.${kind}`, { name: file.name }));
  if (me?.role !== 'instructor') throw new PageError(say(`bring.not-yours.${kind}`, { name: file.name }));
  useWaitingFile.setState({ waiting: { kind, file } });
  goTo(ROOM_OF[kind]);
}

/** The one of several files that can be taken; throws a PageError where there are more. */
export function onlyFile(files: readonly File[]): File {
  const [file] = files;
  if (file === undefined || files.length > 1) throw new PageError(say('bring.one', { count: files.length }));
  return file;
}

/** A file that waits for this room; null where none does. */
export function useWaiting(kinds: readonly WaitingKind[]): WaitingFile | null {
  return useWaitingFile(({ waiting }) => (waiting !== null && kinds.includes(waiting.kind) ? waiting : null));
}

/** To be called as soon as a room has looked at the file. */
export function forgetWaiting(): void {
  useWaitingFile.setState({ waiting: null });
}
