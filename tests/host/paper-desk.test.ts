// Papers of runs, asked for through the contract: tables, report, statements to a file and to a real receiver.
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import validate from '@learninglocker/xapi-validation';
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import type { RunChoice } from '../../electron/contract.ts';
import { samplePng } from '../papers/sample-report.ts';
import { RECEIVER_LOGIN, startReceiver } from '../papers/statement-receiver.ts';
import { cutSampleRun } from './cut-sample-run.ts';
import { handInRun } from './handed-in-run.ts';
import { endOfJob, fileTextOf, startedJob } from './job-ends.ts';
import { openTestHost, type TestPage, temporaryFolder } from './open-test-host.ts';
import { withoutTriggers } from './without-triggers.ts';
import { openYardWithRoles, PASSPHRASES, type YardWithRoles } from './yard-with-roles.ts';

const HOME = 'https://tidewater-row.example';

async function decide({ assessor }: YardWithRoles, runId: string): Promise<void> {
  const overruled = [{ measureId: 'severance', mark: 40, reason: 'A bridge is left.' }];
  const verdict = { decision: 'not-yet-competent', reasons: 'Bridged.', overruled, passphrase: PASSPHRASES.assessor } as const;
  await assessor.ask('signVerdict', { runId, ...verdict });
}

function rowsOf(text: string): Record<string, string>[] {
  return Papa.parse<Record<string, string>>(text.replace(/^\uFEFF/, ''), { header: true, skipEmptyLines: true }).data;
}

/** The rows of a table, from its beginning to its being fetched. */
async function tableOf(page: TestPage, request: { table: 'runs' | 'measures' } & RunChoice): Promise<Record<string, string>[]> {
  return rowsOf(await fileTextOf(page, await page.ask('exportRunsCsv', request)));
}

test('tables of runs and measures, narrowed as the queue and the class are', async () => {
  const yard = await openYardWithRoles();
  const { instructor, assessor, apprentice, otherApprentice, ids } = yard;
  const decided = await handInRun(yard);
  await decide(yard, decided);
  const practice = await cutSampleRun(apprentice);
  await apprentice.ask('noteGuess', { runId: practice, guess: 'too-slow' });
  expect(await otherApprentice.refusal('noteGuess', { runId: practice, guess: 'right' })).toMatch(/^forbidden/);
  const others = await cutSampleRun(otherApprentice);
  const group = await instructor.ask('saveGroup', { groupId: null, name: 'Early shift', memberIds: [ids.otherApprentice] });

  const all = await tableOf(instructor, { table: 'runs' });
  expect(all.map((row) => row.run_id)).toEqual([decided, practice, others]);
  expect(all[0]).toMatchObject({
    person: 'Apprentice 01',
    decision: 'not-yet-competent',
    assessor: 'Assessor 01',
    signature: 'good',
    current_a: '45',
  });
  expect(all[1]).toMatchObject({ decision: '', duration_s: '0.25', state: 'finished', speed_guess: 'too-slow' });
  expect(all[2].groups).toBe('Early shift');

  const chosen = async (choice: object) => (await tableOf(assessor, { table: 'runs', ...choice })).map((row) => row.run_id);
  expect(await chosen({ groupId: group.id })).toEqual([others]);
  expect(await chosen({ personId: ids.apprentice })).toEqual([decided, practice]);
  expect(await chosen({ handedIn: 'decided' })).toEqual([decided]);
  expect(await chosen({ handedIn: 'waiting' })).toEqual([]);
  expect(await chosen({ runIds: [others, practice] })).toEqual([practice, others]);
  expect(await chosen({ drillId: 'nobody-has-this' })).toEqual([]);

  const marks = await tableOf(assessor, { table: 'measures', runIds: [decided] });
  expect(marks.find((row) => row.measure === 'severance')).toMatchObject({
    run_id: decided,
    overruled_mark: '40',
    overruled_reason: 'A bridge is left.',
  });
  expect(marks.length).toBeGreaterThan(3);
});

test('an assessor who still has to judge a run blind learns no verdict from tables or report', async () => {
  const yard = await openYardWithRoles();
  const { instructor, assessor, ids } = yard;
  const runId = await handInRun(yard);
  await decide(yard, runId);
  const { id: secondId } = await instructor.ask('createPerson', { role: 'assessor' });
  const second = yard.host.page();
  await instructor.ask('setPassphrase', { personId: secondId, passphrase: 'a third passphrase' });
  await second.ask('signIn', { personId: secondId, passphrase: 'a third passphrase' });
  const before = (await tableOf(second, { table: 'runs' }))[0];
  expect(before.decision).toBe('not-yet-competent');
  const told = await pdfOf(second, runId);
  await instructor.ask('makeModerationSet', { title: 'Spring', runIds: [runId], firstId: ids.assessor, secondId });
  const blind = (await tableOf(second, { table: 'runs' }))[0];
  expect([blind.decision, blind.assessor, blind.reasons]).toEqual(['', '', '']);
  const marks = await tableOf(second, { table: 'measures' });
  expect(marks.every((row) => row.overruled_mark === '')).toBe(true);
  expect((await pdfOf(second, runId)).length).not.toBe(told.length);
  expect((await tableOf(instructor, { table: 'runs' }))[0].decision).toBe('not-yet-competent');
  expect(await assessor.refusal('exportStatements', { homePage: HOME })).toMatch(/^forbidden: /);
});

async function pdfOf(page: TestPage, runId: string, more: object = {}): Promise<Buffer> {
  const file = await page.ask('exportRunReport', { runId, yardName: 'Tidewater Row', ...more });
  if (file.outcome !== 'bytes') throw new Error(`The file was ${file.outcome}.`);
  expect(file.fileName).toMatch(/^hanger-tab-straight-6-\d{8}-\d{6}-[0-9a-f]{8}\.pdf$/);
  return Buffer.from(file.bytes, 'base64');
}

test('the report of a run: for staff always, for its apprentice once it is decided, for no other', async () => {
  const yard = await openYardWithRoles();
  const { instructor, assessor, apprentice, otherApprentice } = yard;
  const runId = await handInRun(yard);
  const plain = await pdfOf(assessor, runId);
  expect(plain.subarray(0, 5).toString('latin1')).toBe('%PDF-');
  const png = `data:image/png;base64,${Buffer.from(samplePng(320, 180)).toString('base64')}`;
  const pictured = await pdfOf(instructor, runId, { pictures: [{ caption: 'From above', png }] });
  expect(pictured.length).toBeGreaterThan(plain.length);
  expect(await apprentice.refusal('exportRunReport', { runId })).toBe(
    'forbidden: The report of a run is handed out once an assessor has decided on it.',
  );
  await decide(yard, runId);
  expect((await pdfOf(apprentice, runId)).length).toBeGreaterThan(1000);
  expect(await otherApprentice.refusal('exportRunReport', { runId })).toMatch(/^forbidden: The report of a run of somebody else/);

  const broken = { caption: 'Broken', png: 'data:image/png;base64,QUJDRA==' };
  expect(await instructor.refusal('exportRunReport', { runId, pictures: [broken] })).toBe(
    'bad-request: The picture "Broken" is no PNG.',
  );
  const other = { caption: 'Other', png: 'data:image/jpeg;base64,QUJD' };
  expect(await instructor.refusal('exportRunReport', { runId, pictures: [other] })).toMatch(/^bad-request: The call /);
});

test('a verdict that was changed or spoilt in the records, or put beside another run, is handed on as none', async () => {
  const folder = temporaryFolder();
  const yard = await openYardWithRoles({ folder });
  const { ids } = yard;
  const runId = await handInRun(yard);
  await decide(yard, runId);
  const other = await cutSampleRun(yard.otherApprentice);
  await yard.host.close();
  const change = (statement: string) => {
    const records = new DatabaseSync(path.join(folder, 'records.db'));
    withoutTriggers(records, () => records.exec(statement));
    records.close();
  };
  async function told() {
    const host = await openTestHost({ folder });
    await host.ask('signIn', { personId: ids.instructor, passphrase: PASSPHRASES.instructor });
    const rows = await tableOf(host, { table: 'runs' });
    const marks = await tableOf(host, { table: 'measures', runIds: [runId] });
    const text = await fileTextOf(host, await host.ask('exportStatements', { homePage: HOME }));
    await host.close();
    const verbs = (JSON.parse(text) as { verb: { id: string } }[]).map(({ verb }) => verb.id.split('/').at(-1));
    return [rows.map((row) => [row.decision, row.signature]), [...new Set(marks.map((row) => row.signature))], verbs];
  }
  const none = ['', ''];
  expect(await told()).toEqual([[['not-yet-competent', 'good'], none], ['good'], ['completed', 'failed', 'completed']]);
  change("update verdicts set document = replace(document, 'not-yet-competent', 'competent')");
  expect(await told()).toEqual([[['competent', 'does-not-fit'], none], ['does-not-fit'], ['completed', 'completed']]);
  change('update verdicts set document = replace(document, \'"competent"\', \'"not-yet-competent"\')');
  change(`update verdicts set run_id = '${other}'`);
  expect(await told()).toEqual([[none, ['not-yet-competent', 'does-not-fit']], [''], ['completed', 'completed']]);
  change(`update verdicts set run_id = '${runId}', person_id = '${ids.instructor}'`);
  expect(await told()).toEqual([[['not-yet-competent', 'does-not-fit'], none], ['does-not-fit'], ['completed', 'completed']]);
  change(`update verdicts set person_id = '${ids.assessor}'`);
  expect((await told())[1]).toEqual(['good']);
  change(`update run_contents set score_record = json_set(score_record, '$.measures[0].mark', 99.5) where run_id = '${runId}'`);
  expect((await told())[1]).toEqual(['does-not-fit']);
  change("update verdicts set document = '{'");
  expect(await told()).toEqual([[['', 'unreadable'], none], ['unreadable'], ['completed', 'completed']]);
});

test('a verdict on a run that the ledger has otherwise, or whose key cannot be read, is handed on as none', async () => {
  const folder = temporaryFolder();
  const yard = await openYardWithRoles({ folder });
  const runId = await handInRun(yard);
  await decide(yard, runId);
  await yard.host.close();
  const records = (use: (database: DatabaseSync) => unknown) => {
    const database = new DatabaseSync(path.join(folder, 'records.db'));
    try {
      return use(database);
    } finally {
      database.close();
    }
  };
  const valueAt = (query: string) => records((database) => Object.values(database.prepare(query).get() ?? {})[0]);
  async function told() {
    const host = await openTestHost({ folder });
    await host.ask('signIn', { personId: yard.ids.instructor, passphrase: PASSPHRASES.instructor });
    const [row] = await tableOf(host, { table: 'runs' });
    const statements = JSON.parse(await fileTextOf(host, await host.ask('exportStatements', { homePage: HOME })));
    await host.close();
    return [row.person, row.signature, statements.length];
  }
  expect(await told()).toEqual(['Apprentice 01', 'good', 2]);
  for (const [table, column, other, person] of [
    ['runs', 'person_id', yard.ids.otherApprentice, 'Apprentice 02'],
    ['runs', 'final_digest', '0123456789abcdef', 'Apprentice 01'],
    ['signing_keys', 'public_pem', 'x', 'Apprentice 01'],
  ] as const) {
    const own = valueAt(`select ${column} from ${table}`);
    records((database) => withoutTriggers(database, () => database.exec(`update ${table} set ${column} = '${other}'`)));
    expect(await told(), column).toEqual([person, 'does-not-fit', 1]);
    records((database) => withoutTriggers(database, () => database.exec(`update ${table} set ${column} = '${own}'`)));
    expect(await told()).toEqual(['Apprentice 01', 'good', 2]);
  }
});

test('statements of chosen runs to a file: valid, with the verdict, of people only', async () => {
  const yard = await openYardWithRoles();
  const { instructor, apprentice, nobody } = yard;
  const runId = await handInRun(yard);
  await decide(yard, runId);
  await cutSampleRun(nobody);
  await cutSampleRun(apprentice);
  const statementsText = async (choice: RunChoice) =>
    await fileTextOf(instructor, await instructor.ask('exportStatements', { homePage: HOME, ...choice }));
  const statements = JSON.parse(await statementsText({})) as {
    verb: { id: string };
  }[];
  expect(statements.map(({ verb }) => verb.id.split('/').at(-1))).toEqual(['completed', 'failed', 'completed']);
  expect(statements.flatMap((statement) => validate(statement))).toEqual([]);
  const one = JSON.parse(await statementsText({ runIds: [runId] }));
  expect(one).toHaveLength(2);
  expect(await instructor.refusal('exportStatements', { homePage: 'somewhere' })).toMatch(
    /^bad-request: The address that stands/,
  );
  const none = await instructor.ask('exportStatements', { homePage: HOME, drillId: 'nobody-has-this' });
  expect(await endOfJob(instructor, startedJob(none))).toMatchObject({
    ...{ state: 'failed', file: null, problem: 'Among these is no closed run of a person to tell of.' },
  });
});

test('statements to a store: followed by its job, told of where it fails, stopped', async () => {
  const yard = await openYardWithRoles();
  const { instructor } = yard;
  const runId = await handInRun(yard);
  await decide(yard, runId);
  const store = await startReceiver();
  const request = { homePage: HOME, endpoint: store.endpoint, ...RECEIVER_LOGIN };
  const begun = await instructor.ask('sendStatements', request);
  expect(await endOfJob(instructor, begun)).toMatchObject({
    ...{ kind: 'send-statements', state: 'done', done: 2, total: 2, problem: null },
    statements: { sent: 2, conflicting: 0 },
  });
  expect(store.kept.size).toBe(2);
  const again = await endOfJob(instructor, await instructor.ask('sendStatements', request));
  expect([again.state, store.kept.size]).toEqual(['done', 2]);

  const refused = await endOfJob(instructor, await instructor.ask('sendStatements', { ...request, password: 'wrong one' }));
  expect(refused).toMatchObject({ state: 'failed', statements: { sent: 0 } });
  expect(refused.problem).toMatch(/does not accept this name and password/);
  const open = await endOfJob(
    instructor,
    await instructor.ask('sendStatements', { ...request, endpoint: 'http://store.example/' }),
  );
  expect(open.problem).toMatch(/must begin with https/);

  // A store that never answers: the job runs until it is stopped.
  const silent = await startReceiver(() => true);
  const waiting = await instructor.ask('sendStatements', { ...request, endpoint: silent.endpoint });
  expect((await instructor.ask('getJob', { jobId: waiting.id })).state).toBe('running');
  const other = yard.host.page();
  const { id } = await instructor.ask('createPerson', { role: 'instructor' });
  await instructor.ask('setPassphrase', { personId: id, passphrase: 'another instructor' });
  await other.ask('signIn', { personId: id, passphrase: 'another instructor' });
  expect(await other.refusal('stopJob', { jobId: waiting.id })).toMatch(/^not-found: There is no job/);
  await instructor.ask('stopJob', { jobId: waiting.id });
  expect(await endOfJob(instructor, waiting)).toMatchObject({ state: 'stopped', problem: 'The sending was stopped.' });
  // One that is left running does not keep the host from closing.
  await instructor.ask('sendStatements', { ...request, endpoint: silent.endpoint });
});
