import { afterEach, expect, test } from 'vitest';
import { useYard } from '../../renderer/app/yard-store.ts';
import { edit, replaceWith, takeUp, undo, useBuilder, write } from '../../renderer/builder/builder-store.ts';
import { drillTextOf } from '../../renderer/builder/drill-text-of.ts';
import { newDrill } from '../../renderer/builder/new-drill.ts';
import { settleDrill } from '../../renderer/builder/settle-drill.ts';
import { speak } from '../../renderer/text/language.ts';
import type { Drill } from '../../sim-core/index.ts';

const fresh = newDrill(new Set());
const present = (): Drill => useBuilder.getState().history.present;
afterEach(() => {
  speak('en');
  useYard.setState(useYard.getInitialState());
});

const withTitle = (title: string) => (drill: Drill) => ({ ...drill, title });

test('text that is laid out in another way gives way to what is edited in the form after it', () => {
  takeUp(fresh, { hash: null, drill: null }, null);
  const onOneLine = JSON.stringify({ ...fresh, title: 'Written' });
  write(onOneLine);
  expect(useBuilder.getState().writing).toEqual({ text: onOneLine, problems: [] });
  expect(edit(withTitle('From the form'))).toBeNull();
  expect(useBuilder.getState().writing).toBeNull();
  // The next key in the pane is pressed in the text that it shows now.
  write(drillTextOf(present()).replace('From the form', 'From the form!'));
  expect(present().title).toBe('From the form!');
});

test('an edit that is refused leaves what is being written as it is', () => {
  takeUp(fresh, { hash: null, drill: null }, null);
  const onOneLine = JSON.stringify({ ...fresh, title: 'Written' });
  write(onOneLine);
  expect(edit(withTitle(''))).toBe('Something must stand here.');
  expect(useBuilder.getState().writing?.text).toBe(onOneLine);
});

test('an older version is taken out as it is, whatever stands there now, and is one step back', () => {
  const gouge = settleDrill(fresh, { ...fresh, rig: { ...fresh.rig, mode: 'gouge' } });
  const guide = { kind: 'straight-edge' as const, side: 'left' as const, offsetMm: 11 };
  const intended = { ...gouge.intended, passes: 2, grooveDepthMm: { low: 1, high: 2 } };
  const older: Drill = { ...gouge, guide, intended };
  takeUp(fresh, { hash: null, drill: null }, null);
  write(JSON.stringify({ ...fresh, title: 'Written' }));
  const before = present();
  replaceWith(older);
  expect(present()).toEqual(older);
  expect(useBuilder.getState().writing).toBeNull();
  undo();
  expect(present()).toBe(before);
});

test('a figure that is too small or too large is told its bound as the reader has figures', () => {
  takeUp(fresh, { hash: null, drill: null }, null);
  const thin = () => edit((drill) => ({ ...drill, plate: { ...drill.plate, thicknessMm: 0.1 } }));
  const far = () => edit((drill) => ({ ...drill, tolerances: { ...drill.tolerances, standOffMm: { low: 0, high: 1000 } } }));
  const often = () => edit((drill) => ({ ...drill, attempts: 5000 }));
  expect([thin(), far(), often()]).toEqual([
    'At least 0.5\u00a0mm, please.',
    'At most 20\u00a0mm, please.',
    'At most 999, please.',
  ]);
  speak('de');
  expect(thin()).toContain('0,5\u00a0mm');
  useYard.setState(({ settings }) => ({ settings: { ...settings, units: 'inch' } }));
  expect(thin()).toContain('0,020\u00a0in');
});
