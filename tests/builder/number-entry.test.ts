import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, test, vi } from 'vitest';
import { NumberEntry, type NumberEntryProps } from '../../renderer/builder/NumberEntry.tsx';

vi.mock('../../renderer/ui/use-units.ts', () => ({ useUnits: () => 'inch' }));

test.each([
  ['mm', 25.4, 'in', '1'],
  ['mm/s', 25.4, 'in/min', '60'],
  ['m', 10, 'ft', '32.808'],
  ['A', 45, 'A', '45'],
] as const)('a reader of inches sees a figure in %s as they have it: %f is %s %s', (unit, value, sign, shown) => {
  const props: NumberEntryProps = { label: 'Hose', value, unit, low: 0, high: 100, onChange: () => null };
  const markup = renderToStaticMarkup(createElement(NumberEntry, props));
  expect(markup).toContain(`Hose, ${sign}<`);
  expect(markup).toContain(`value="${shown}"`);
});
