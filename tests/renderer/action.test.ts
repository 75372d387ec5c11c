import { createElement, type FocusEvent, useState } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, test } from 'vitest';
import { Action } from '../../renderer/ui/Action.tsx';
import { mountHook } from './mount-hook.ts';

test('a button that waits is told as one that does nothing now, and keeps the focus as one that is disabled would not', () => {
  const markup = renderToStaticMarkup(createElement(Action, { isWaiting: true, type: 'submit' }, 'Save'));
  expect(markup).toContain('aria-disabled="true"');
  expect(markup).not.toContain('disabled=""');
  // A form is not sent by it either.
  expect(markup).toContain('type="button"');
  expect(renderToStaticMarkup(createElement(Action, {}, 'Save'))).not.toContain('disabled');
});

/** A blur of the button: by the focus going on within the page, or with the whole window. */
function blur(by: 'page' | 'window'): FocusEvent<HTMLButtonElement> {
  const ownerDocument: { activeElement: unknown } = { activeElement: null };
  const target = { ownerDocument };
  if (by === 'window') ownerDocument.activeElement = target;
  return { target } as unknown as FocusEvent<HTMLButtonElement>;
}

test('a button that is disabled while it has the focus keeps it, does nothing, and is disabled once the focus has gone on', async () => {
  const onPress = () => undefined;
  const button = await mountHook(() => {
    const [isDisabled, disable] = useState(false);
    return { disable, ...Action({ isDisabled, type: 'submit', onPress }).props };
  });
  await button.does(() => button.now.onFocus());
  expect(button.now).toMatchObject({ isDisabled: false, type: 'submit', onPress });
  const held = { isDisabled: false, 'aria-disabled': true, type: 'button', onPress: undefined };
  await button.does(() => button.now.disable(true));
  expect(button.now).toMatchObject(held);
  await button.does(() => button.now.onBlur(blur('window')));
  expect(button.now).toMatchObject(held);
  await button.does(() => button.now.onBlur(blur('page')));
  expect(button.now.isDisabled).toBe(true);
  await button.unmount();
});
