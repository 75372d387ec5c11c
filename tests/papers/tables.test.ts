// Rosters in and out, and the tables of runs and measures: what a spreadsheet writes is read, what we write is read by the rules of
// RFC 4180 again, and nothing that a person typed becomes a formula.
import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { csvRows, csvText, unmarkedCell } from '../../electron/host/papers/csv-text.ts';
import { previewRoster, type RosterPerson, rosterChanges, rosterCsv } from '../../electron/host/papers/roster.ts';
import { RUN_TABLES, type RunForTable } from '../../electron/host/papers/run-tables.ts';

const yard: RosterPerson[] = [
  { role: 'instructor', number: 1, groups: [] },
  { role: 'assessor', number: 1, groups: ['Monday'] },
  { role: 'apprentice', number: 1, groups: ['Monday', 'Gangways'] },
  { role: 'apprentice', number: 2, groups: ['Tuesday'] },
  { role: 'apprentice', number: 3, groups: [] },
];

describe('a roster', () => {
  test('is told row by row: new, changed, unchanged, wrong', () => {
    const text = [
      'Role,Number,Groups,Shoe size',
      'apprentice,1,Gangways|Monday,41',
      'apprentice,2,Monday,42',
      'Apprentice,04, Friday | Friday ,43',
      'apprentice,4,Friday,43',
      'foreman,5,,44',
      'apprentice,0,,44',
      'apprentice,1e3,,44',
      'apprentice,7',
      'instructor,2,Monday,45',
      'assessor,1,Monday,45',
      `apprentice,8,${'g'.repeat(61)},44`,
      'apprentice,9,"Early',
      'birds",44',
      '',
      'apprentice,10,,44',
    ].join('\r\n');
    const preview = previewRoster(text, yard);
    expect(
      preview.rows.map((row) => [row.line, row.kind, row.kind === 'wrong' ? row.reason : row.person.groups.join('|')]),
    ).toEqual([
      [2, 'unchanged', 'Monday|Gangways'],
      [3, 'changed', 'Monday'],
      [4, 'new', 'Friday'],
      [5, 'wrong', 'Apprentice 04 stands in line 4 already.'],
      [6, 'wrong', 'The role is "foreman" and must be apprentice, instructor or assessor.'],
      [7, 'wrong', 'The number is "0" and must be a whole number from 1 to 9999.'],
      [8, 'wrong', 'The number is "1e3" and must be a whole number from 1 to 9999.'],
      [9, 'wrong', 'It has 2 cells and the heading line has 4.'],
      [10, 'wrong', 'Instructor 02 is not in this yard: instructors and assessors are made with a passphrase, not by a roster.'],
      [11, 'unchanged', 'Monday'],
      [12, 'wrong', `The group "${'g'.repeat(40)}..." has more than 60 characters.`],
      [13, 'wrong', 'The name of a group holds a line end or another control character.'],
      [16, 'new', ''],
    ]);
    expect(preview.counts).toEqual({ new: 2, changed: 1, unchanged: 2, wrong: 8 });
    expect(preview.newGroups).toEqual(['Friday']);
    expect(preview.notNamed.map(({ role, number }) => `${role} ${number}`)).toEqual(['instructor 1', 'apprentice 3']);
    expect(preview.ignoredColumns).toEqual(['shoe size']);
    expect(rosterChanges(preview).map(({ number }) => number)).toEqual([2, 4, 10]);
    expect(preview.rows[1]).toMatchObject({ before: ['Tuesday'] });
  });
  test.each([
    ['semicolons and a byte order mark', '\uFEFFrole;number;groups\napprentice;2;Tuesday\n'],
    ['tabs', 'number\trole\tgroups\n2\tapprentice\tTuesday'],
    ['old line ends', 'role,number,groups\rapprentice,2,Tuesday\r'],
    ['quotes', '"role","number","groups"\r\n"apprentice","2","Tuesday"\r\n'],
    ['empty lines before', '\n\nrole,number,groups\napprentice,2,Tuesday'],
  ])('may have %s', (_, text) => {
    expect(previewRoster(text, yard).rows).toMatchObject([{ kind: 'unchanged', person: yard[3] }]);
  });
  test('without the column groups leaves the groups alone', () => {
    expect(previewRoster('role,number\napprentice,2\napprentice,5', yard).counts).toMatchObject({ unchanged: 1, new: 1 });
  });
  test.each([
    ['', 'The file is empty'],
    ['\n \n', 'The file is empty'],
    ['""', 'The file is empty'],
    ['" "\n""\n', 'The file is empty'],
    ['name,age\nx,1', 'no column "role" and no column "number"'],
    ['role,number,Role\na,1,b', 'The column "role" stands twice in line 1'],
    ['role,number\napprentice,"1', 'line 2'],
    [`role,number\n${'apprentice,1\n'.repeat(10_001)}`, 'at most 10000'],
    [`role,number\n${'\n'.repeat(20_001)}`, 'more than 20000 lines'],
    [`role,number,${Array.from({ length: 99 }, (_, index) => `c${index}`)}`, 'names 101 columns; a table has at most 100'],
    ['x'.repeat(2 * 1024 * 1024 + 1), 'at most 2097152'],
  ])('that cannot be read is refused as a whole', (text, sentence) => {
    expect(() => previewRoster(text, yard)).toThrow(sentence);
  });
  test('that was written here is unchanged in every row when it comes back', () => {
    const group = fc.constantFrom(
      'Monday',
      '-early',
      '=1+1',
      '@home',
      "'=quoted",
      "''-7",
      '\uFF0B1',
      'a "quoted" one',
      'semi;colon',
      'c,omma',
      '\u00e9t\u00e9',
    );
    const person = fc.record({
      role: fc.constantFrom('apprentice', 'instructor', 'assessor'),
      number: fc.integer({ min: 1, max: 9999 }),
      groups: fc.uniqueArray(group, { maxLength: 4 }),
    });
    const people = fc.uniqueArray(person, { selector: ({ role, number }) => `${role} ${number}`, maxLength: 30 });
    fc.assert(
      fc.property(people, (all) => {
        const { counts, notNamed } = previewRoster(rosterCsv(all as RosterPerson[]), all as RosterPerson[]);
        expect(counts).toEqual({ new: 0, changed: 0, unchanged: all.length, wrong: 0 });
        expect(notNamed).toEqual([]);
      }),
      { seed: 20_260_102 },
    );
  });
  test('of ten thousand rows is read whole', () => {
    const text = `role,number,groups\n${Array.from({ length: 9999 }, (_, index) => `apprentice,${index + 1},Monday`).join('\n')}`;
    expect(previewRoster(text, yard).counts).toMatchObject({ new: 9996, changed: 3 });
  });
});

const RUN: RunForTable = {
  runId: 'r-1',
  state: 'finished',
  person: 'Apprentice 01',
  groups: ['Monday', 'Gangways'],
  drillId: 'hanger-tab-straight-6',
  drillTitle: 'Hanger tab, "straight" cut',
  drillHash: 'ab'.repeat(32),
  technique: 'edge-start',
  material: 'mild-steel',
  thicknessMm: 6,
  currentA: 45,
  seed: 4_294_967_295,
  handKind: 'mouse',
  handName: '=HYPERLINK("http://x.example")',
  speedGuess: 'too-fast',
  coreVersion: '2.0.0',
  beganAt: '2030-01-31T09:45:00.000Z',
  endedAt: null,
  durationS: 12.5,
  score: 81.5,
  passed: true,
  measures: [
    { id: 'severance', mark: 100, weight: 3, mustReach: 80 },
    { id: 'stand-off', mark: 40.2, weight: 1 },
  ],
  verdict: {
    decision: 'competent',
    assessor: 'Assessor 01',
    at: '2030-02-01T10:15:00.000Z',
    reasons: '-steady\nand square',
    overruled: [{ measureId: 'stand-off', mark: 70, reason: 'The plate was warped.' }],
    signature: 'does-not-fit',
  },
};
const tableText = (table: keyof typeof RUN_TABLES, runs: readonly RunForTable[]) =>
  RUN_TABLES[table].head + RUN_TABLES[table].rowsOf(runs);
const read = (text: string) => Papa.parse<Record<string, string>>(text.slice(1), { header: true, skipEmptyLines: true });

describe('tables', () => {
  test('of runs: a heading, a row each, CRLF, no formula', () => {
    const text = tableText('runs', [RUN, { ...RUN, runId: 'r-2', score: null, passed: null, verdict: null, person: null }]);
    expect(text).toMatch(/^\uFEFFrun_id,state,/);
    expect(text.endsWith('\r\n')).toBe(true);
    const { data, errors, meta } = read(text);
    expect(errors).toEqual([]);
    expect(meta.fields).toHaveLength(26);
    expect(data[0]).toMatchObject({
      groups: 'Monday|Gangways',
      drill_title: 'Hanger tab, "straight" cut',
      seed: '4294967295',
      hand_name: '\'=HYPERLINK("http://x.example")',
      thickness_mm: '6',
      ended_at: '',
      score: '81.5',
      passed: 'yes',
      decision: 'competent',
      reasons: "'-steady\nand square",
      speed_guess: 'too-fast',
      signature: 'does-not-fit',
    });
    expect(data[1]).toMatchObject({ run_id: 'r-2', person: '', score: '', passed: '', decision: '', reasons: '', signature: '' });
  });
  test("of measures: the run's mark and the assessor's, side by side", () => {
    const { data } = read(tableText('measures', [RUN]));
    expect(data).toHaveLength(2);
    expect(data[0]).toMatchObject({ measure: 'severance', mark: '100', weight: '3', must_reach: '80', overruled_mark: '' });
    expect(data[1]).toMatchObject({
      mark: '40.2',
      must_reach: '',
      overruled_mark: '70',
      overruled_reason: 'The plate was warped.',
      signature: 'does-not-fit',
    });
    expect(read(tableText('measures', [])).meta.fields).toContain('overruled_reason');
  });
  test('keep negative figures as figures, and mark every text that begins like a formula', () => {
    const rows = [-1.5, '-1.5', '-a', '=1', '+1', '@x', '\tx', 'a=1', '\rx', '\nx', '\uFF1D1', "'=1", "'-1"].map((cell) => ({
      cell,
    }));
    const MORE = ["'\rx", "'\nx", "'\uFF1D1", "''=1", "''-1"];
    const { data } = read(csvText(['cell'], rows));
    expect(data.map((row) => row.cell)).toEqual(['-1.5', "'-1.5", "'-a", "'=1", "'+1", "'@x", "'\tx", 'a=1', ...MORE]);
  });
  test('begin no formula whether commas, semicolons or tabs part the cells, and are the same text when they are read again', () => {
    const piece = fc.oneof(
      fc.constantFrom(...',;\t\r\n"\'=+-@ |\uFF1D\uFF0D\u00A0\u202E\u200B\uFEFF\0', '=1+1', '"",', '-1.5', 'cmd'),
      fc.string({ unit: 'binary', maxLength: 3 }),
    );
    const cell = fc.array(piece, { maxLength: 12 }).map((pieces) => pieces.join(''));
    const row = fc.record({ name: cell, text: cell, figure: fc.double({ noNaN: true, noDefaultInfinity: true }), last: cell });
    const columns = ['name', 'text', 'figure', 'last'] as const;
    const begins = /(?:^|[,;\t\r\n])[\s\p{Cc}\p{Cf}"]*[-=+@\uFF1D\uFF0B\uFF0D\uFF20]/gu;
    const figure = /^,-\d+(\.\d+)?(e[-+]\d+)?(?=[,\r])/;
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 4 }), (rows) => {
        const text = csvRows(columns, rows);
        for (const { index } of text.matchAll(begins)) expect(text.slice(index)).toMatch(figure);
        for (const delimiter of [';', '\t']) {
          const { data } = Papa.parse<string[]>(text, { delimiter });
          for (const found of data.flat()) expect(found).not.toMatch(/^[\s\p{Cc}\p{Cf}"]*[-=+@\uFF1D\uFF0B\uFF0D\uFF20]/u);
        }
        const { data } = Papa.parse<string[]>(text, { delimiter: ',', newline: '\r\n' });
        const read = data.slice(0, rows.length).map((cells) => cells.map(unmarkedCell));
        expect(read).toEqual(rows.map((one) => columns.map((name) => String(one[name]))));
      }),
      { numRuns: 3000, seed: 20_260_102 },
    );
  });
  // A pattern that goes back over what it has read would take hours for these.
  test('are marked and read where a cell is half a million line ends, quotes or apostrophes', () => {
    for (const piece of ['\n', "'\n", '"', ' ', "',", '\t;']) {
      const cell = piece.repeat(500_000);
      expect(unmarkedCell(unmarkedCell(csvRows(['cell'], [{ cell }]))).length).toBeGreaterThan(cell.length / 2);
    }
  });
  test.each([
    [';=1+1', 'x,";\'=1+1",y'],
    ['a;=1+1', 'x,"a;\'=1+1",y'],
    ['a,=1', 'x,"a,\'=1",y'],
    ['a\t+1', 'x,"a\t\'+1",y'],
    ['a\n-1', 'x,"a\n\'-1",y'],
    ['; "=1', 'x,";\' ""=1",y'],
    ['a;b', 'x,"a;b",y'],
    ['a = b - c', 'x,a = b - c,y'],
  ])('mark %j where semicolons or tabs would make a cell of it', (cell, line) => {
    expect(csvRows(['a', 'cell', 'b'], [{ a: 'x', cell, b: 'y' }])).toBe(`${line}\r\n`);
  });
});
