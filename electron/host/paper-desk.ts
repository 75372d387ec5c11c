import type { PAPER_VERBS } from '../contract/papers.ts';
import type { Verb } from '../contract.ts';
import { signedIn } from './caller.ts';
import type { ExportNotes } from './export-notes.ts';
import { createFileJobs, type FileJobs } from './file-jobs.ts';
import type { HandOutBytes, HandOutFile } from './hand-out-file.ts';
import { type BackupDesk, createBackupDesk } from './paper-desk-backup.ts';
import { createExportDesk, type ExportDesk } from './paper-desk-exports.ts';
import type { PaperJobs } from './paper-desk-jobs.ts';
import { createPackDesk, type PackDesk, type PackDeskNeeds } from './paper-desk-packs.ts';
import { type ReportNeeds, runReport } from './paper-desk-report.ts';
import { passingFiles } from './passing-files.ts';
import type { Passphrases } from './passphrases.ts';
import type { Services } from './services.ts';

/** What goes out as a paper and comes in as one. */
export interface PaperDesk extends ReportNeeds {
  handOut: HandOutFile;
  handOutBytes: HandOutBytes;
  jobs: PaperJobs;
  fileJobs: FileJobs;
  runsOut: ExportDesk;
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
  const { shelf, verdicts, moderation, trusts, appVersion, settings, handOut, handOutBytes, jobs, exports } = needs;
  const passing = passingFiles(needs.folder);
  const fileJobs = createFileJobs(jobs, needs.askWhereToSave, passing);
  const backups = createBackupDesk({ ...needs, fileJobs, passing });
  return {
    ...{ shelf, verdicts, moderation, trusts, appVersion, settings, handOut, handOutBytes, jobs, fileJobs, backups, exports },
    runsOut: createExportDesk({ ...needs, fileJobs }),
    packs: createPackDesk(needs),
    async close() {
      await jobs.close();
      await backups.close();
      fileJobs.close();
    },
  };
}

export interface PaperParts {
  paperDesk: PaperDesk;
}

/** Tables, reports, statements, packs and backups. */
export function paperServices({ paperDesk }: PaperParts): Pick<Services, Verb & keyof typeof PAPER_VERBS> {
  const { handOut, handOutBytes, jobs, fileJobs, runsOut, packs, backups, exports } = paperDesk;
  return {
    exportRunsCsv: (request, caller) => runsOut.table(request, signedIn(caller)),
    exportRunReport: async (request, caller) => {
      const { fileName, pdf } = await runReport(paperDesk, request, caller);
      const note = { who: signedIn(caller).id, subject: request.runId, body: { what: 'report' } };
      return await exports.of(handOutBytes(fileName, pdf), note);
    },
    exportStatements: (request, caller) => runsOut.statements(request, signedIn(caller).id),
    sendStatements: async (request, caller) => runsOut.send(request, signedIn(caller).id),
    exportPack: async (request) => handOut(`${fileWords(request.title)}.kerfhand-pack`, await packs.text(request)),
    previewPack: ({ text }) => packs.preview(text),
    importPack: async (request, caller) => {
      const by = signedIn(caller).id;
      return jobs.start('import-pack', by, async (watch) => ({ taken: await packs.import(request, by, watch) }));
    },
    backUp: (_request, caller) => backups.backUp(signedIn(caller).id),
    addToBackup: (request, caller) => backups.add(request, signedIn(caller).id),
    inspectBackup: ({ uploadId }, caller) => backups.inspect(uploadId, signedIn(caller).id),
    restoreAtNextStart: (request, caller) => backups.restore(request, signedIn(caller)),
    getWaitingRestore: async () => backups.waiting(),
    withdrawRestore: async () => backups.withdraw(),
    getJob: async ({ jobId }, caller) => jobs.get(jobId, signedIn(caller).id),
    stopJob: async ({ jobId }, caller) => jobs.stop(jobId, signedIn(caller).id),
    readJobFile: (request, caller) => fileJobs.read(request, signedIn(caller).id),
  };
}

/** A title as a file name that every system takes. */
function fileWords(title: string): string {
  const words = title.toLowerCase().match(/[a-z0-9]+/g);
  return words ? words.join('-').slice(0, 60) : 'drills';
}
