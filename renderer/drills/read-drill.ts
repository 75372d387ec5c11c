import type { DrillSummary } from '../../electron/contract.ts';
import { type Drill, parseDrill } from '../../sim-core/index.ts';
import { callHost } from '../app/host-client.ts';

const read = new Map<string, Promise<Drill>>();

/** Turns the text of a drill into the drill; throws an Error with one sentence, which names the place, where it cannot. */
export function drillFromText(text: string): Drill {
  const result = parseDrill(text);
  if (result.ok) return result.value;
  const [problem] = result.problems;
  throw new Error(problem ? `${problem.path}: ${problem.sentence}` : 'The drill cannot be read.');
}

/** One version of a drill from the host, read once. */
export function readDrill(summary: Pick<DrillSummary, 'hash'>): Promise<Drill> {
  let drill = read.get(summary.hash);
  if (!drill) {
    drill = callHost('getDrill', { hash: summary.hash }).then(({ text }) => drillFromText(text));
    drill.catch(() => read.delete(summary.hash));
    read.set(summary.hash, drill);
  }
  return drill;
}
