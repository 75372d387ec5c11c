import { techniqueName } from '../drills/technique-name.ts';
import { say } from '../text/say.ts';
import { scoreText } from '../ui/units.ts';
import { dayText } from './dates.ts';
import type { NextReason } from './next-practice.ts';

/** Why a drill comes next, in one sentence. */
export function reasonWords(reason: NextReason): string {
  switch (reason.kind) {
    case 'due': {
      const mixed = reason.order === 'mixed';
      if (reason.dueAt === null) return say(mixed ? 'own.why.asked-mixed' : 'own.why.asked-listed');
      const date = dayText(reason.dueAt);
      if (reason.overdue) return say('own.why.overdue', { date });
      return say(mixed ? 'own.why.due-mixed' : 'own.why.due-listed', { date });
    }
    case 'close':
      if (reason.tries === 1) return say('own.why.close-once', { score: scoreText(reason.score) });
      return say('own.why.close', { tries: reason.tries, score: scoreText(reason.score) });
    case 'rest':
      return say('own.why.rest', { days: reason.days });
    case 'new':
      return say('own.why.new', { technique: techniqueName(reason.technique) });
  }
}

export function attemptsLeftWords(left: number): string {
  if (left === 0) return say('own.left-none');
  return left === 1 ? say('own.left-one') : say('own.left', { left });
}
