import { afterEach, expect, test, vi } from 'vitest';
import { useBuilder } from '../../renderer/builder/builder-store.ts';
import { drillTextOf } from '../../renderer/builder/drill-text-of.ts';
import { newDrill } from '../../renderer/builder/new-drill.ts';
import { openDrill } from '../../renderer/builder/open-drill.ts';

afterEach(() => vi.unstubAllGlobals());

test('of two drills that are opened one behind the other the second is taken up, though the first one comes later', async () => {
  const fresh = newDrill(new Set());
  const textOf = (id: string) => drillTextOf({ ...fresh, id });
  const coming = new Map<string, () => void>();
  const getDrill = ({ id }: { id: string }) =>
    new Promise((resolve) => {
      const reply = { drill: { id, source: 'own', hash: id, draft: false }, text: textOf(id) };
      coming.set(id, () => resolve({ ok: true, reply }));
    });
  const listDrills = async () => ({ ok: true, reply: { drills: [] } });
  vi.stubGlobal('window', { kerfhand: { getDrill, listDrills } });
  const slow = openDrill('slow');
  await expect.poll(() => coming.has('slow')).toBe(true);
  const quick = openDrill('quick');
  await expect.poll(() => coming.has('quick')).toBe(true);
  coming.get('quick')?.();
  await quick;
  coming.get('slow')?.();
  expect(await slow).toBe(false);
  const { opened, history } = useBuilder.getState();
  expect([opened, history.present.id]).toEqual(['quick', 'quick']);
});
