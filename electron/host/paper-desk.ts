import type { PAPER_VERBS } from '../contract/papers.ts';
import type { PaperJob, ParsedRequest, RunChoice, Verb } from '../contract.ts';
import { signedIn } from './caller.ts';
import type { ExportNotes } from './export-notes.ts';
import type { HandOutBytes, HandOutFile } from './hand-out-file.ts';
import { HostError } from './host-error.ts';
import { type BackupDesk, createBackupDesk } from './paper-desk-backup.ts';
import type { PaperJobs } from './paper-desk-jobs.ts';
import { createPackDesk, type PackDesk, type PackDeskNeeds } from './paper-desk-packs.ts';
import { type ReportNeeds, runReport } from './paper-desk-report.ts';
import { type PaperRun, readPaperRuns } from './paper-desk-runs.ts';
import { measuresCsv, runsCsv } from './papers/run-tables.ts';
import { sendStatements } from './papers/send-statements.ts';
import { statementsOf, statementsText, type XapiStatement } from './papers/xapi-statements.ts';
import type { Passphrases } from './passphrases.ts';
import type { Services } from './services.ts';

const NOTHING_BLIND: ReadonlySet<string> = new Set();

/** What goes out as a paper and comes in as one. */
export interface PaperDesk extends ReportNeeds, Pick<PackDeskNeeds, 'db'> {
  handOut: HandOutFile;
  handOutBytes: HandOutBytes;
  jobs: PaperJobs;
  packs: PackDesk;
  backups: BackupDesk;
  exports: ExportNotes;
  /** Stops jobs under way and removes files that nobody fetched. */
  close(): Promise<void>;
}

export interface PaperDeskNeeds extends ReportNeeds, PackDeskNeeds {
  handOut: HandOutFile;
  handOutBytes: HandOutBytes;
  askWhereToSave: ((suggestedName: string) => Promise<string | null>) | undefined;
  /** Folder of the records; null where nothing is kept. */
  folder: string | null;
  passphrases: Passphrases;
  jobs: PaperJobs;
  exports: ExportNotes;
}

export function createPaperDesk(needs: PaperDeskNeeds): PaperDesk {
  const { db, shelf, verdicts, moderation, appVersion, settings, handOut, handOutBytes, jobs, exports } = needs;
  const backups = createBackupDesk(needs);
  return {
    ...{ db, shelf, verdicts, moderation, appVersion, settings, handOut, handOutBytes, jobs, backups, exports },
    packs: createPackDesk(needs),
    async close() {
      await jobs.close();
      await backups.close();
    },
  };
}

export interface PaperParts {
  paperDesk: PaperDesk;
}

/** Tables, reports, statements, packs and backups. */
export function paperServices({ paperDesk }: PaperParts): Pick<Services, Verb & keyof typeof PAPER_VERBS> {
  const { db, moderation, handOut, handOutBytes, jobs, packs, backups, exports } = paperDesk;
  return {
    exportRunsCsv: async ({ table, ...choice }, caller) => {
      const me = signedIn(caller);
      const blind = me.role === 'assessor' ? await moderation.blindRuns(me.id) : NOTHING_BLIND;
      const runs = await readPaperRuns(db, choice, blind);
      const out = handOut(`${table}-${today()}.csv`, table === 'runs' ? runsCsv(runs) : measuresCsv(runs));
      return await exports.of(out, { who: me.id, subject: 'runs', body: { what: `${table}-table`, runs: runs.length, choice } });
    },
    exportRunReport: async (request, caller) => {
      const { fileName, pdf } = await runReport(paperDesk, request, caller);
      const note = { who: signedIn(caller).id, subject: request.runId, body: { what: 'report' } };
      return await exports.of(handOutBytes(fileName, pdf), note);
    },
    exportStatements: async ({ homePage, ...choice }, caller) => {
      const statements = await statementsFor(paperDesk, homePage, choice);
      const body = { what: 'statements', statements: statements.length, choice };
      const out = handOut(`statements-${today()}.json`, statementsText(statements));
      return await exports.of(out, { who: signedIn(caller).id, subject: 'runs', body });
    },
    sendStatements: async (request, caller) => startSending(paperDesk, request, signedIn(caller).id),
    exportPack: async (request) => handOut(`${fileWords(request.title)}.kerfhand-pack`, await packs.text(request)),
    previewPack: ({ text }) => packs.preview(text),
    importPack: (request, caller) => packs.import(request, signedIn(caller).id),
    backUp: (_request, caller) => backups.backUp(signedIn(caller).id),
    addToBackup: (request, caller) => backups.add(request, signedIn(caller).id),
    inspectBackup: ({ uploadId }, caller) => backups.inspect(uploadId, signedIn(caller).id),
    restoreAtNextStart: (request, caller) => backups.restore(request, signedIn(caller)),
    getWaitingRestore: async () => backups.waiting(),
    withdrawRestore: async () => backups.withdraw(),
    getJob: async ({ jobId }, caller) => jobs.get(jobId, signedIn(caller).id),
    stopJob: async ({ jobId }, caller) => jobs.stop(jobId, signedIn(caller).id),
    readJobFile: (request, caller) => backups.readJobFile(request, signedIn(caller).id),
  };
}

async function startSending(desk: PaperDesk, request: ParsedRequest<'sendStatements'>, by: string): Promise<PaperJob> {
  const { homePage, endpoint, user, password, ...choice } = request;
  const statements = await statementsFor(desk, homePage, choice);
  return desk.jobs.start('send-statements', by, async (watch) => {
    const { sent, conflicting, problem } = await sendStatements(statements, { endpoint, user, password }, watch);
    const body = { what: 'statements', statements: sent.length, choice, to: endpoint };
    if (sent.length > 0) await desk.exports.add({ who: by, subject: 'runs', body });
    return { problem, statements: { sent: sent.length, conflicting: conflicting.length } };
  });
}

/** Statements of the closed runs of people among those chosen. @throws HostError 'bad-request' (home page), 'not-found' (no such run) */
async function statementsFor(
  { db, appVersion, settings }: PaperDesk,
  homePage: string,
  choice: RunChoice,
): Promise<XapiStatement[]> {
  const { yardName } = await settings.get();
  const source = { homePage, platform: `Kerfhand ${appVersion}, ${yardName}` };
  const runs = await readPaperRuns(db, choice, NOTHING_BLIND);
  try {
    const statements = runs.flatMap((run) => (isToTell(run) ? statementsOf(toldOf(run), source) : []));
    if (statements.length === 0) throw new HostError('not-found', 'Among these is no closed run of a person to tell of.');
    return statements;
  } catch (error) {
    if (error instanceof RangeError) throw new HostError('bad-request', error.message, { cause: error });
    throw error;
  }
}

function isToTell(run: PaperRun): run is PaperRun & { person: string } {
  return run.person !== null && run.state !== 'open';
}

function toldOf(run: PaperRun & { person: string }): Parameters<typeof statementsOf>[0] {
  return { ...run, finished: run.state === 'finished', endedAt: run.endedAt ?? run.beganAt };
}

/** '2030-01-31', UTC. */
function today(): string {
  return new Date().toISOString().slice(0, 10);
}

/** A title as a file name that every system takes. */
function fileWords(title: string): string {
  const words = title.toLowerCase().match(/[a-z0-9]+/g);
  return words ? words.join('-').slice(0, 60) : 'drills';
}
