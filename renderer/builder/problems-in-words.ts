import type { z } from 'zod';
import { useYard } from '../app/yard-store.ts';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import { numberText, significantText } from '../ui/number-text.ts';
import { type QuantityUnit, quantity } from '../ui/units.ts';

/** Unit of a figure by the end of its name in a drill. */
const UNIT_OF_END: Readonly<Record<string, QuantityUnit>> = { MmPerS: 'mm/s', Mm: 'mm', Deg: 'deg', A: 'A', M: 'm', S: 's' };

/** A bound that hurt, in the reader's measures; the innermost name that says a unit says it for the ends of a band too. */
function boundWords(bound: number | bigint, path: readonly PropertyKey[]): string {
  const [, end] = path.map((name) => /(MmPerS|Mm|Deg|A|M|S)$/.exec(String(name))).findLast((found) => found !== null) ?? [];
  const unit = end === undefined ? undefined : UNIT_OF_END[end];
  if (unit === undefined) return significantText(Number(bound), 6);
  return quantity(Number(bound), unit, useYard.getState().settings.units);
}

/** Why a value that was typed or chosen cannot be taken: one sentence for a person who has never seen the text. */
export function problemsInWords(error: { issues: readonly z.core.$ZodIssue[] }): string {
  const [issue] = error.issues;
  if (issue === undefined) return say('builder.field.wrong');
  switch (issue.code) {
    case 'too_small':
      if (issue.origin === 'string') return say('builder.field.empty');
      return say('builder.field.at-least', { least: boundWords(issue.minimum, issue.path) });
    case 'too_big':
      if (issue.origin === 'string') return say('builder.field.too-long', { most: numberText(Number(issue.maximum), 0) });
      return say('builder.field.at-most', { most: boundWords(issue.maximum, issue.path) });
    case 'custom':
      return inEnglish(sentence(issue.message));
    default:
      return say('builder.field.wrong');
  }
}

function sentence(message: string): string {
  return `${message.charAt(0).toUpperCase()}${message.slice(1)}${/[.!?]$/.test(message) ? '' : '.'}`;
}
