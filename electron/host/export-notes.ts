import path from 'node:path';
import type { Ledger } from './ledger.ts';
import type { RecordsDatabase } from './records-tables.ts';

/** What went out: 'run', 'verdict', 'report', 'runs-table', 'measures-table', 'statements', 'roster' or 'backup', and figures of it. */
export interface ExportNote {
  /** Null where nobody was signed in. */
  who: string | null;
  /** Id of a run; 'runs', 'roster' or 'yard' where it is more than one. */
  subject: string;
  body: { what: string } & Record<string, unknown>;
}

export interface ExportNotes {
  add(note: ExportNote): Promise<void>;
  /** Notes a file that was written. */
  ofFile(file: string, note: ExportNote): Promise<void>;
  /** Notes a file that is handed out, unless whoever was asked where to put it took that back. */
  of<T extends { outcome: string }>(out: Promise<T>, note: ExportNote): Promise<T>;
}

/** What takes data of people out of the yard stands in the ledger. Drill packs and public keys hold nothing of anybody. */
export function createExportNotes(db: RecordsDatabase, ledger: Ledger): ExportNotes {
  async function add({ who, subject, body }: ExportNote): Promise<void> {
    await db.transaction().execute((step) => ledger.add(step, { who, kind: 'export', subject, body }));
    await ledger.settle();
  }
  return {
    add,
    ofFile: (file, note) => add({ ...note, body: { ...note.body, fileName: path.basename(file) } }),
    async of(out, note) {
      const handed = await out;
      if (handed.outcome === 'cancelled') return handed;
      const fileName = 'fileName' in handed ? handed.fileName : null;
      await add({ ...note, body: { ...note.body, fileName } });
      return handed;
    },
  };
}
