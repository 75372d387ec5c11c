import type { DrillSummary, PackPreview, Reply } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import type { WaitingFile } from './bring-file.ts';

export type IncomingRow = PackPreview['rows'][number];
export type IncomingChoice = IncomingRow['choices'][number];
export type Choices = Readonly<Record<string, IncomingChoice>>;
export type TakenDrill = Reply<'importPack'>['taken'][number];

/** Drills that came in a file and wait to be decided about. Nothing is written before `take`. */
export interface IncomingDrills {
  fileName: string;
  /** Null where the file is a single drill, which has no words around it. */
  pack: Pick<PackPreview, 'title' | 'about' | 'madeAt'> | null;
  rows: readonly IncomingRow[];
  /** @returns what was taken in; what is not in it was left as it is */
  take(choices: Choices): Promise<readonly TakenDrill[]>;
}

async function readPack(file: File): Promise<IncomingDrills> {
  const text = await file.text();
  const { rows, ...pack } = await callHost('previewPack', { text });
  const take = async (choices: Choices) => (await callHost('importPack', { text, choices })).taken;
  return { fileName: file.name, pack, rows, take };
}

/** What a single drill is to the ones that are here; whether it is the very same the host finds out when it is taken in. */
function rowOfDrill({ id, title }: { id: string; title: string }, here: DrillSummary | undefined): IncomingRow {
  const row = { id, title, hash: null, hasDemonstration: false, here: here?.title ?? null, reason: null };
  if (here === undefined) return { ...row, kind: 'new', choices: ['add', 'leave'] };
  return here.source === 'shipped'
    ? { ...row, kind: 'shipped', choices: ['leave', 'keep-both'] }
    : { ...row, kind: 'clash', choices: ['leave', 'replace', 'keep-both'] };
}

async function readDrillFile(file: File): Promise<IncomingDrills> {
  const text = await file.text();
  const [read, { drills }] = await Promise.all([callHost('checkDrill', { text }), callHost('listDrills', {})]);
  const row = rowOfDrill(
    read,
    drills.find((drill) => drill.id === read.id),
  );
  const take = async (choices: Choices): Promise<TakenDrill[]> => {
    const choice = choices[row.id] ?? row.choices[0];
    if (choice === undefined || choice === 'leave') return [];
    const { drill, outcome } = await callHost('importDrill', { text, onConflict: choice === 'add' ? 'refuse' : choice });
    if (outcome === 'same') return [];
    return [{ choice, packId: row.id, id: drill.id, hash: drill.hash, demonstration: 'left-out', reason: null }];
  };
  return { fileName: file.name, pack: null, rows: [row], take };
}

/** Looks into a pack or a drill file. Rejects with a sentence where it cannot be read. */
export function readIncoming({ kind, file }: WaitingFile): Promise<IncomingDrills> {
  return kind === 'pack' ? readPack(file) : readDrillFile(file);
}
