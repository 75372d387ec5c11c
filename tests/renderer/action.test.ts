import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, test } from 'vitest';
import { Action } from '../../renderer/ui/Action.tsx';

test('a button that waits is told as one that does nothing now, and keeps the focus as one that is disabled would not', () => {
  const markup = renderToStaticMarkup(createElement(Action, { isWaiting: true }, 'Save'));
  expect(markup).toContain('aria-disabled="true"');
  expect(markup).not.toContain('disabled=""');
  expect(renderToStaticMarkup(createElement(Action, {}, 'Save'))).not.toContain('disabled');
});
