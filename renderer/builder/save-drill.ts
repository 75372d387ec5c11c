import type { ParseProblem } from '../../sim-core/index.ts';
import { callHost } from '../app/host-client.ts';
import { useYard } from '../app/yard-store.ts';
import { useBuilder } from './builder-store.ts';
import { dropDraft } from './draft-keeper.ts';
import { drillTextOf } from './drill-text-of.ts';

/** What became of a save. */
export type SaveOutcome =
  | { outcome: 'saved' | 'same'; id: string; hash: string; number: number }
  | { outcome: 'refused'; problems: ParseProblem[] };

/** Saves the drill as it is as its newest version; as a `draft`, for staff to try. Throws HostError where the host will not have it. */
export async function saveDrill(draft: boolean): Promise<SaveOutcome> {
  const { history, base, opened } = useBuilder.getState();
  const drill = history.present;
  // Under another id it is another drill, and replaces none.
  const replaces = base.drill?.id === drill.id ? base.hash : null;
  const saved = await callHost('saveDrill', { text: drillTextOf(drill), replaces, draft });
  if (saved.outcome === 'refused') return saved;
  dropDraft(opened);
  dropDraft(drill.id);
  const { drills } = await callHost('listDrills', {});
  useYard.setState({ drills });
  // What everybody has already is not made a draft by saving it once more.
  const isDraft = drills.find((one) => one.id === saved.id)?.draft ?? false;
  useBuilder.setState({ base: { hash: saved.hash, drill, draft: isDraft }, opened: drill.id });
  return saved;
}
