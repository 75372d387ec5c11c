import { useEffect, useRef } from 'react';
import { Input } from 'react-aria-components';
import { decimalSign } from './number-text.ts';

/** What is put in, with the decimal sign of the language; null where there is nothing to change. */
function inLanguage(typed: string | null): string | null {
  const sign = decimalSign();
  const other = sign === ',' ? '.' : ',';
  return typed?.includes(other) && !typed.includes(sign) ? typed.replace(other, sign) : null;
}

/** The field of a `NumberField`: decimal point and comma mean the same, whatever the language. No number here is written in groups. */
export function NumberInput({ className }: { className: string }) {
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    const input = field.current;
    if (!input) return;
    // Before the widget, which would take the other sign for one between groups.
    const mend = (event: InputEvent) => {
      const mended = inLanguage(event.data);
      if (mended === null) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      input.setRangeText(mended, input.selectionStart ?? 0, input.selectionEnd ?? 0, 'end');
      input.dispatchEvent(new InputEvent('input', { bubbles: true, data: mended, inputType: event.inputType }));
    };
    input.addEventListener('beforeinput', mend, { capture: true });
    return () => input.removeEventListener('beforeinput', mend, { capture: true });
  }, []);
  return <Input ref={field} className={className} />;
}
