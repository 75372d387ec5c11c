import type { z } from 'zod';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';

/** Why a value that was typed or chosen cannot be taken: one sentence for a person who has never seen the text. */
export function problemsInWords(error: { issues: readonly z.core.$ZodIssue[] }): string {
  const [issue] = error.issues;
  if (issue === undefined) return say('builder.field.wrong');
  switch (issue.code) {
    case 'too_small':
      if (issue.origin === 'string') return say('builder.field.empty');
      return say('builder.field.at-least', { least: String(issue.minimum) });
    case 'too_big':
      if (issue.origin === 'string') return say('builder.field.too-long', { most: String(issue.maximum) });
      return say('builder.field.at-most', { most: String(issue.maximum) });
    case 'custom':
      return inEnglish(sentence(issue.message));
    default:
      return say('builder.field.wrong');
  }
}

function sentence(message: string): string {
  return `${message.charAt(0).toUpperCase()}${message.slice(1)}${/[.!?]$/.test(message) ? '' : '.'}`;
}
