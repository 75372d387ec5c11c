import type { FileJobBegun, PaperJob, ParsedRequest, RunChoice } from '../contract.ts';
import { atomicWrite } from './atomic-write.ts';
import type { ExportNotes } from './export-notes.ts';
import type { FileJobs } from './file-jobs.ts';
import { HostError } from './host-error.ts';
import type { Moderation } from './moderation.ts';
import type { PaperJobs, PaperJobWatch } from './paper-desk-jobs.ts';
import { type PaperRun, readPaperRuns } from './paper-desk-runs.ts';
import { mustGoOn } from './papers/copy-bytes.ts';
import { RUN_TABLES } from './papers/run-tables.ts';
import { sendStatements } from './papers/send-statements.ts';
import { mustBeHome, statementsOf, statementsText, type XapiStatement } from './papers/xapi-statements.ts';
import type { RecordsDatabase } from './records-tables.ts';
import type { SettingsStore } from './settings-store.ts';

const NOTHING_BLIND: ReadonlySet<string> = new Set();

export interface ExportDesk {
  /** @param as who asks: an assessor learns no verdict on what they still have to judge blind */
  table(request: ParsedRequest<'exportRunsCsv'>, as: { id: string; role: string }): Promise<FileJobBegun>;
  /** @throws HostError 'bad-request' (home page) */
  statements(request: ParsedRequest<'exportStatements'>, by: string): Promise<FileJobBegun>;
  /** @throws HostError 'bad-request' (home page) */
  send(request: ParsedRequest<'sendStatements'>, by: string): PaperJob;
}

export interface ExportDeskNeeds {
  db: RecordsDatabase;
  moderation: Moderation;
  settings: SettingsStore;
  exports: ExportNotes;
  jobs: PaperJobs;
  fileJobs: FileJobs;
  appVersion: string;
}

/** Many runs out at once: as tables, and as statements to a file or to a store. Stopped before the end, a file is not made at all. */
export function createExportDesk(needs: ExportDeskNeeds): ExportDesk {
  const { db, moderation, exports, jobs, fileJobs } = needs;
  return {
    async table({ table, ...choice }, { id: who, role }) {
      const { head, rowsOf } = RUN_TABLES[table];
      const work = async (watch: PaperJobWatch, to: string) => {
        const blind = role === 'assessor' ? await moderation.blindRuns(who) : NOTHING_BLIND;
        const parts = [head];
        let runs = 0;
        for await (const part of readPaperRuns(db, choice, blind)) {
          mustGoOn(watch);
          parts.push(rowsOf(part.runs));
          runs += part.runs.length;
          watch.onProgress(part.done, part.total);
        }
        mustGoOn(watch);
        atomicWrite(to, parts.join(''));
        await exports.ofFile(to, { who, subject: 'runs', body: { what: `${table}-table`, runs, choice } });
        return {};
      };
      return await fileJobs.begin({ kind: 'write-table', suggestedName: `${table}-${today()}.csv`, what: 'table', work }, who);
    },
    async statements({ homePage, ...choice }, who) {
      mustBeAddress(homePage);
      const work = async (watch: PaperJobWatch, to: string) => {
        const lines: string[] = [];
        for await (const part of statementsFor(needs, homePage, choice, watch)) {
          lines.push(...part.statements.map((statement) => JSON.stringify(statement)));
          watch.onProgress(part.done, part.total);
        }
        mustBeSome(lines.length);
        mustGoOn(watch);
        atomicWrite(to, statementsText(lines));
        await exports.ofFile(to, { who, subject: 'runs', body: { what: 'statements', statements: lines.length, choice } });
        return { statements: { sent: lines.length, conflicting: 0 } };
      };
      const suggestedName = `statements-${today()}.json`;
      return await fileJobs.begin({ kind: 'write-statements', suggestedName, what: 'statements', work }, who);
    },
    send({ homePage, endpoint, user, password, ...choice }, who) {
      mustBeAddress(homePage);
      return jobs.start('send-statements', who, async (watch) => {
        const statements: XapiStatement[] = [];
        for await (const part of statementsFor(needs, homePage, choice, watch)) statements.push(...part.statements);
        mustBeSome(statements.length);
        watch.onProgress(0, statements.length);
        const { sent, conflicting, problem } = await sendStatements(statements, { endpoint, user, password }, watch);
        const body = { what: 'statements', statements: sent.length, choice, to: endpoint };
        if (sent.length > 0) await exports.add({ who, subject: 'runs', body });
        return { problem, statements: { sent: sent.length, conflicting: conflicting.length } };
      });
    },
  };
}

/** Statements of the closed runs of people among those chosen. */
async function* statementsFor(
  { db }: ExportDeskNeeds,
  homePage: string,
  choice: RunChoice,
  watch: PaperJobWatch,
): AsyncGenerator<{ statements: XapiStatement[]; done: number; total: number }> {
  // Neither version nor the yard's name: a store that has a statement takes no other content under its id.
  const source = { homePage, platform: 'Kerfhand' };
  for await (const { runs, done, total } of readPaperRuns(db, choice, NOTHING_BLIND)) {
    mustGoOn(watch);
    yield { statements: runs.flatMap((run) => (isToTell(run) ? statementsOf(toldOf(run), source) : [])), done, total };
  }
  mustGoOn(watch);
}

function mustBeAddress(homePage: string): void {
  try {
    mustBeHome(homePage);
  } catch (error) {
    if (error instanceof RangeError) throw new HostError('bad-request', error.message, { cause: error });
    throw error;
  }
}

function mustBeSome(statements: number): void {
  if (statements === 0) throw new HostError('not-found', 'Among these is no closed run of a person to tell of.');
}

function isToTell(run: PaperRun): run is PaperRun & { person: string } {
  return run.person !== null && run.state !== 'open';
}

function toldOf(run: PaperRun & { person: string }): Parameters<typeof statementsOf>[0] {
  // What no assessor has signed as it stands, of who it stands under, is no verdict to hand on.
  const verdict = run.verdict?.signature === 'good' ? run.verdict : null;
  return { ...run, verdict, finished: run.state === 'finished', endedAt: run.endedAt ?? run.beganAt };
}

/** '2030-01-31', UTC. */
function today(): string {
  return new Date().toISOString().slice(0, 10);
}
