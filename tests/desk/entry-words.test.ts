import { describe, expect, test } from 'vitest';
import { LEDGER_KINDS, type LedgerEntry } from '../../electron/contract.ts';
import { entryWords, type YardNames } from '../../renderer/desk/entry-words.ts';
import { speak } from '../../renderer/text/language.ts';
import { isTextKey, say } from '../../renderer/text/say.ts';

const NAMES: YardNames = {
  person: (id) => (id === 'p1' ? 'Apprentice 01' : null),
  drill: (id) => (id === 'tab' ? 'Hanger tab' : null),
  assignment: (id) => (id === 'a1' ? 'First lines' : null),
  set: (id) => (id === 's1' ? 'Spring' : null),
};

function entry(kind: string, subject: string, body: Record<string, unknown>): LedgerEntry {
  return { seq: 5, at: '2026-03-20T10:00:00.000Z', who: null, kind: kind as LedgerEntry['kind'], subject, body, digest: '' };
}

const said = (kind: string, subject: string, body: Record<string, unknown>) => entryWords(entry(kind, subject, body), NAMES);

describe('an entry in words', () => {
  test.each([
    ['role-change', 'p1', { change: 'person-added', name: 'Apprentice 01' }, 'Apprentice 01 was added.'],
    [
      'group',
      'g',
      { change: 'changed', name: 'Noon watch', members: ['p1'] },
      'Changed the group “Noon watch”; it now has one person.',
    ],
    ['group', 'g', { change: 'deleted', name: 'Noon watch', members: [] }, 'Deleted the group “Noon watch”.'],
    ['assignment', 'a1', { change: 'assigned', title: 'First lines', drillIds: ['a', 'b'] }, 'Assigned “First lines”: 2 drills.'],
    ['assignment', 'a1', { change: 'withdrawn' }, 'Withdrew the assignment “First lines”.'],
    ['assignment', 'gone', { change: 'withdrawn' }, 'Withdrew the assignment “–”.'],
    ['run-submitted', 'r', { drillId: 'tab', score: 81.4 }, 'Handed in a run of “Hanger tab”, score 81.'],
    ['run-submitted', 'r', { drillId: 'old-one', score: null }, 'Handed in a run of “old-one”.'],
    ['verdict', 'r', { decision: 'competent', reasons: 'Steady.', replaces: null }, 'Signed a verdict: Competent. “Steady.”'],
    [
      'verdict',
      'r',
      { decision: 'not-yet-competent', reasons: 'Too fast.', replaces: 'v1' },
      'Signed another verdict on the same run: Not yet competent. “Too fast.”',
    ],
    [
      'overrule',
      'r',
      { measureId: 'travel-speed', own: null, mark: 55, reason: 'Even.' },
      'Overruled Travel speed: 55 instead of –. “Even.”',
    ],
    ['note', 'r', { text: 'Slower here.' }, 'Pinned a note to a run: “Slower here.”'],
    ['correction', 'r', { corrects: 3, reason: 'Wrong run.' }, 'Corrected entry 3: “Wrong run.”'],
    [
      'moderation',
      's1',
      { change: 'judged', decision: 'competent' },
      'Judged a run of the moderation set “Spring”, without sight of the other judgement.',
    ],
    ['moderation', 's1', { change: 'made', title: 'Spring', runIds: ['a'] }, 'Made the moderation set “Spring” of one run.'],
    ['drill-saved', 'tab', { title: 'Hanger tab', replaces: null }, 'Saved the new drill “Hanger tab”.'],
    ['drill-saved', 'tab', { title: 'Hanger tab', replaces: 'h' }, 'Saved a new version of the drill “Hanger tab”.'],
    ['import', 'roster', { changes: [1, 2, 3] }, 'Took in a roster: 3 people new or changed.'],
    ['import', 'drill-pack', { drills: [1] }, 'Took in a drill pack: one drill.'],
    ['import', 'r', { drillId: 'tab' }, 'Took in a run file: a run of “Hanger tab”.'],
    ['export', 'runs', { what: 'runs-table', runs: 1 }, 'Saved a table of one run.'],
    ['export', 'runs', { what: 'statements', statements: 12, to: 'https://store' }, 'Sent 12 statements to https://store.'],
    ['export', 'yard', { what: 'backup', fileName: 'y.kerfhand-backup' }, 'Made a backup of the yard: y.kerfhand-backup.'],
  ])('%s of %s: %o', (kind, subject, body, words) => {
    expect(said(kind, subject, body)).toBe(words);
  });

  test('whatever somebody made of its body, every kind still has words, and so has a kind that there is not', () => {
    const bodies = [
      {},
      { unreadable: 'x' },
      { change: 7, name: [], decision: {}, score: 'high', corrects: null, drills: 'many', madeAt: 'never', to: 3 },
      { change: 'toString', what: '__proto__', decision: 'constructor' },
    ];
    for (const kind of [...LEDGER_KINDS, 'unreadable', 'made-up']) {
      if (kind !== 'made-up') expect(isTextKey(`record.kind.${kind}`), kind).toBe(true);
      for (const body of bodies) expect(said(kind, 'nobody-knows', body)).toMatch(/\S/);
    }
  });

  test('whoever an entry is about is called as in the language of the page, and a group as it was named', () => {
    const name = 'Assessor 01';
    speak('de');
    expect(said('role-change', 'gone', { change: 'person-added', name })).toContain(`${say('role.assessor')} 01`);
    expect(said('group', 'g', { change: 'deleted', name, members: [] })).toContain(name);
    speak('en');
  });

  test('long words of somebody are cut in the sentence', () => {
    expect(said('note', 'r', { text: 'slow '.repeat(100) }).length).toBeLessThan(140);
  });
});
