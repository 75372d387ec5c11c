import { callHost } from '../app/host-client.ts';
import { onlyLatest } from '../app/only-latest.ts';
import { useYard } from '../app/yard-store.ts';
import { drillFromText } from '../drills/read-drill.ts';
import { takeUp, useBuilder } from './builder-store.ts';
import { keptDraft } from './draft-keeper.ts';
import { copyOf, newDrill } from './new-drill.ts';

const begin = onlyLatest();

/**
 * Takes a drill up in the builder, null = a new one; a draft of it that was never saved goes on where it was left. Answers
 * whether there was one. Throws an Error with one sentence where the drill cannot be read. Where another one was asked for
 * meanwhile, nothing is taken up.
 */
export async function openDrill(drillId: string | null): Promise<boolean> {
  const isLatest = begin();
  const { drills } = await callHost('listDrills', {});
  if (!isLatest()) return false;
  useYard.setState({ drills });
  const taken = new Set(drills.map((drill) => drill.id));
  const draft = keptDraft(drillId);
  if (drillId === null) {
    takeUp(draft?.drill ?? newDrill(taken), { hash: null, drill: null }, null);
    return draft !== null;
  }
  const { drill: summary, text } = await callHost('getDrill', { id: drillId });
  if (!isLatest()) return false;
  const { base, opened, history } = useBuilder.getState();
  // Back from the bench, or just saved: what was undone and done stays at hand.
  if (opened === drillId && history.present !== undefined && base.hash === summary.hash) return false;
  const drill = drillFromText(text);
  if (summary.source === 'own') {
    const current = { hash: summary.hash, drill, draft: summary.draft };
    if (draft && draft.onHash === summary.hash) takeUp(draft.drill, current, drillId);
    else takeUp(drill, current, drillId);
    return draft?.onHash === summary.hash;
  }
  takeUp(draft?.drill ?? copyOf(drill, taken), { hash: null, drill: null }, drillId);
  return draft !== null;
}
