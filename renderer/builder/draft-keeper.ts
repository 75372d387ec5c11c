import { type Drill, parseDrill } from '../../sim-core/index.ts';
import { drillTextOf } from './drill-text-of.ts';

/** Drafts outlast a reload, a way to another room and back, and a crash of the page; a save or a start from scratch ends one. */
const nameOf = (id: string | null) => `kerfhand-drill-draft ${id ?? 'new'}`;

export interface Draft {
  drill: Drill;
  /** The version on which it was built; null = on none. */
  onHash: string | null;
}

/** Keeps what is not saved yet, under the id of the drill that it was taken up from; null = a new one. */
export function keepDraft(id: string | null, draft: Draft): void {
  try {
    localStorage.setItem(nameOf(id), JSON.stringify({ text: drillTextOf(draft.drill), onHash: draft.onHash }));
  } catch {
    // A full or forbidden store: the draft then lasts as long as the page does.
  }
}

export function dropDraft(id: string | null): void {
  try {
    localStorage.removeItem(nameOf(id));
  } catch {
    // See above.
  }
}

/** The draft that was kept, null where there is none, or none that can be read. */
export function keptDraft(id: string | null): Draft | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(nameOf(id)) ?? 'null');
    if (typeof kept !== 'object' || kept === null || !('text' in kept) || !('onHash' in kept)) return null;
    const read = parseDrill(String(kept.text));
    if (!read.ok) return null;
    return { drill: read.value, onHash: typeof kept.onHash === 'string' ? kept.onHash : null };
  } catch {
    return null;
  }
}
