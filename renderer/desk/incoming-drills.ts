import type { PackPreview, PaperJob, TakenDrill } from '../../electron/contract.ts';
import { followJob } from '../app/follow-job.ts';
import { callHost } from '../app/host-client.ts';
import type { WaitingFile } from './bring-file.ts';

export type IncomingRow = PackPreview['rows'][number];
export type IncomingChoice = IncomingRow['choices'][number];
export type Choices = Readonly<Record<string, IncomingChoice>>;

/** Drills that came in a file and wait to be decided about. Nothing is written before `take`. */
export interface IncomingDrills {
  fileName: string;
  /** Null where the file is a single drill, which has no words around it. */
  pack: Pick<PackPreview, 'title' | 'about' | 'madeAt'> | null;
  rows: readonly IncomingRow[];
  /**
   * @param onJob told of a pack's job while it is under way; stopped, it takes nothing in
   * @returns what was taken in, and what is not in it was left as it is; null where it was stopped
   */
  take(choices: Choices, onJob: (job: PaperJob) => void): Promise<readonly TakenDrill[] | null>;
}

async function readPack(file: File): Promise<IncomingDrills> {
  const text = await file.text();
  const { rows, ...pack } = await callHost('previewPack', { text });
  const take = async (choices: Choices, onJob: (job: PaperJob) => void) => {
    const job = await followJob(await callHost('importPack', { text, choices }), onJob);
    if (job.state === 'failed') throw new Error(job.problem ?? '');
    return job.taken;
  };
  return { fileName: file.name, pack, rows, take };
}

/** Whether two texts are one drill: layout does not count. Both are good drills already. */
function isSameDrill(one: string, other: string): boolean {
  return JSON.stringify(JSON.parse(one)) === JSON.stringify(JSON.parse(other));
}

/** What a single drill is to the one of its id that is here. */
async function rowOfDrill(text: string): Promise<IncomingRow> {
  const [{ id, title }, { drills }] = await Promise.all([callHost('checkDrill', { text }), callHost('listDrills', {})]);
  const here = drills.find((drill) => drill.id === id);
  const row = { id, title, hash: null, hasDemonstration: false, here: here?.title ?? null, reason: null };
  if (here === undefined) return { ...row, kind: 'new', choices: ['add', 'leave'] };
  if (isSameDrill(text, (await callHost('getDrill', { id })).text)) return { ...row, kind: 'same', choices: ['leave'] };
  return here.source === 'shipped'
    ? { ...row, kind: 'shipped', choices: ['leave', 'keep-both'] }
    : { ...row, kind: 'clash', choices: ['leave', 'replace', 'keep-both'] };
}

async function readDrillFile(file: File): Promise<IncomingDrills> {
  const text = await file.text();
  const row = await rowOfDrill(text);
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
