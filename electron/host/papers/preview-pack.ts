import { HostError } from '../host-error.ts';
import type { DrillPack, PackedDrill } from './drill-pack.ts';

/** A drill that the yard has under an id. */
export interface ShelvedDrill {
  id: string;
  hash: string;
  title: string;
  source: 'shipped' | 'own';
  /** Hashes of all versions of this id that the yard ever had, the current one too. */
  versions: readonly string[];
}

/**
 * new: nobody has this id. same: this very version is the current one. newer: comes after the version that is here.
 * older: the yard had this version, and has a later one. clash: a different drill of the same id. shipped: the id belongs to a
 * drill that comes with Kerfhand, which is never replaced. wrong: cannot be read, or not be cut.
 */
export type PackRowKind = 'new' | 'same' | 'newer' | 'older' | 'clash' | 'shipped' | 'wrong';

/** add: under its own id. replace: as the current version. keep-both: under the next free id. leave: nothing happens. */
export type PackChoice = 'add' | 'replace' | 'keep-both' | 'leave';

export interface PackRow {
  kind: PackRowKind;
  id: string;
  title: string;
  hash: string | null;
  hasDemonstration: boolean;
  /** Title of the drill that has this id here. */
  here: string | null;
  /** Why it is wrong. */
  reason: string | null;
  /** What may be done with it; the first is what happens where nothing is chosen. */
  choices: PackChoice[];
}

export interface PackPreview {
  title: string;
  about: string;
  madeAt: string;
  rows: PackRow[];
}

/** Nothing that is here is ever replaced unless it was chosen, but for a version that follows on the one that is here. */
const CHOICES: Record<PackRowKind, PackChoice[]> = {
  new: ['add', 'leave'],
  same: ['leave'],
  newer: ['replace', 'keep-both', 'leave'],
  older: ['leave', 'replace', 'keep-both'],
  clash: ['leave', 'replace', 'keep-both'],
  shipped: ['leave', 'keep-both'],
  wrong: ['leave'],
};

/** What taking in a pack would do, drill by drill; changes nothing. */
export function previewPack(pack: DrillPack, shelf: readonly ShelvedDrill[]): PackPreview {
  return { title: pack.title, about: pack.about, madeAt: pack.madeAt, rows: rowsOf(pack, shelf) };
}

/** One thing to write. For 'add', 'replace' and 'keep-both' the drill's own text; the demonstration belongs to exactly this version. */
export interface PackStep {
  choice: Exclude<PackChoice, 'leave'>;
  id: string;
  text: string;
  demonstration: string | null;
}

/**
 * What to write for the choices made, by drill id; a drill without a choice gets the first one of its row.
 * @throws HostError 'bad-request' where a choice is not one of its row's, as when the shelf has changed since the preview
 */
export function planPackImport(
  pack: DrillPack,
  shelf: readonly ShelvedDrill[],
  chosen: Readonly<Record<string, PackChoice>>,
): PackStep[] {
  const rows = rowsOf(pack, shelf);
  const stray = Object.keys(chosen).find((id) => !rows.some((row) => row.id === id && row.kind !== 'wrong'));
  if (stray !== undefined) throw new HostError('bad-request', `There is no good drill ${stray.slice(0, 80)} in this pack.`);
  return pack.drills.flatMap((packed, index): PackStep[] => {
    const row = rows[index];
    if (!packed.ok) return [];
    const choice = Object.hasOwn(chosen, row.id) ? chosen[row.id] : row.choices[0];
    if (!row.choices.includes(choice)) {
      throw new HostError('bad-request', `The drill ${row.id} cannot be taken in as "${choice}": it is ${row.kind} here.`);
    }
    if (choice === 'leave') return [];
    // Under another id it is another version, on which the demonstration was not cut.
    const demonstration = choice === 'keep-both' ? null : packed.demonstration;
    return [{ choice, id: row.id, text: packed.read.text, demonstration }];
  });
}

function rowsOf(pack: DrillPack, shelf: readonly ShelvedDrill[]): PackRow[] {
  const byId = new Map(shelf.map((drill) => [drill.id, drill]));
  return pack.drills.map((packed): PackRow => {
    if (!packed.ok) {
      const { name, reason } = packed;
      return {
        kind: 'wrong',
        id: name,
        title: name,
        hash: null,
        hasDemonstration: false,
        here: null,
        reason,
        choices: ['leave'],
      };
    }
    const { drill, hash } = packed.read;
    const here = byId.get(drill.id);
    const kind = kindOf(packed, here);
    return {
      kind,
      id: drill.id,
      title: drill.title,
      hash,
      hasDemonstration: packed.demonstration !== null,
      here: here?.title ?? null,
      reason: null,
      choices: [...CHOICES[kind]],
    };
  });
}

function kindOf({ read, earlier }: Extract<PackedDrill, { ok: true }>, here: ShelvedDrill | undefined): PackRowKind {
  if (!here) return 'new';
  if (here.hash === read.hash) return 'same';
  if (here.source === 'shipped') return 'shipped';
  if (here.versions.includes(read.hash)) return 'older';
  return earlier.includes(here.hash) ? 'newer' : 'clash';
}
